// One switch for everything: what can be chosen is marked in turn, and the
// switch takes what is marked. Any of the switch keys will do, or a touch.

import { $, el } from './dom.js';
import { answerButtons } from './answers.js';
import { memory } from './memory.js';
import { unit } from './wording.js';

const SWITCH = new Set([' ', 'Enter', 'PageDown', 'PageUp', 'ArrowDown', 'ArrowUp', 'ArrowLeft', 'ArrowRight']);
const ROUNDS = 2; // then it rests until the switch is pressed
const BOUNCE = 300; // ms in which a second press is the same one

/** What the first choice leads to: its label, and the words that are said. */
export const EMERGENCIES = [
  ['A burn', 'I have burnt myself'],
  ['Something in an eye', 'something is in my eye'],
  ['Trouble breathing', 'I cannot breathe'],
  ['Skin stuck in plaster', 'my hand is stuck in the plaster'],
  ['Something swallowed', 'I swallowed something'],
  ['A cut that bleeds', 'I have cut myself and it bleeds'],
  ['Fire', 'there is a fire'],
];

let act = null;
let reply = null;
let items = []; // { label, does, kind }
let at = 0;
let left = 0; // items until it rests; 0: it rests
let timer = 0;
let number = ''; // digits put together so far
let pressedAt = 0;

/** Sets it up. actions: say(text), undo(), waiting(), changed(). */
export function watchScan(actions) {
  act = actions;
  $('scan').addEventListener('click', press);
  document.addEventListener('keydown', onKey, { capture: true });
  const [box, dwell] = [$('scan-on'), $('scan-dwell')];
  box.checked = memory.scan;
  dwell.value = String(memory.dwell);
  box.addEventListener('change', () => { memory.scan = box.checked; drawScan(reply); });
  dwell.addEventListener('change', () => { memory.dwell = Number(dwell.value); });
  $('help').addEventListener('close', () => drawScan(reply)); // it begins once the help is out of the way
}

/** True while the page is used with one switch. */
export const scans = () => !$('scan').hidden;

/** To be called with each sheet, and when a request was refused. */
export function drawScan(next) {
  reply = next;
  number = '';
  const on = memory.scan && reply !== null;
  $('scan').hidden = !on;
  for (const part of document.querySelectorAll('.rail, .bench, .front')) part.inert = on;
  if (!on) { clearTimeout(timer); return; }
  drawText();
  show(all());
  $('scan').focus({ preventScroll: true });
}

// The sheet without what answers it, which is the list below, and without what
// would have to be folded out.
function drawText() {
  const paper = $('paper').cloneNode(true);
  paper.querySelectorAll('.head, .answers, .folds, .aside, .answer-key, details:not([open]) > :not(summary)').forEach((part) => part.remove());
  paper.querySelectorAll('[id]').forEach((part) => part.removeAttribute('id'));
  $('scan-text').replaceChildren(...paper.childNodes);
  $('scan-text').scrollTop = 0;
}

function all() {
  const answers = answerButtons().map((button) => ({ label: button.lastElementChild.textContent, does: () => take(button) }));
  const emergency = { label: 'Emergency', kind: 'danger', does: () => show(emergencies()) };
  const danger = reply.phase === 'emergency';
  return [
    !danger && emergency,
    isLong() && { label: 'Read on', does: readOn },
    ...($('number') ? digits() : []),
    ...answers,
    { label: 'Repeat', does: () => send('repeat') },
    { label: 'Take back', does: () => { act.undo(); held(); } },
    danger && emergency,
    { label: 'Help', does: () => send('help') },
    { label: 'Leave one switch', does: () => show([{ label: 'Stay', does: () => show(all()) }, { label: 'Leave', does: leave }]) },
  ].filter(Boolean);
}

const emergencies = () => [
  ...EMERGENCIES.map(([label, words]) => ({ label, kind: 'danger', does: () => send(words) })),
  { label: 'None of these', does: () => show(all()) },
];

function digits() {
  const set = (next) => () => { number = next; show(all(), 1); };
  const enter = { label: `Enter ${number} ${unit(reply.question?.unit).short}`.trim(), does: giveNumber };
  return [
    number !== '' && enter,
    ...[...'1234567890'].map((digit) => ({ label: digit, kind: 'digit', does: set(number + digit) })),
    !number.includes('.') && { label: '.', kind: 'digit', does: set(`${number}.`) },
    number !== '' && { label: 'rub out', kind: 'digit wide', does: set(number.slice(0, -1)) },
  ].filter(Boolean);
}

function giveNumber() {
  $('number').value = number;
  $('number').form.requestSubmit();
  held();
}

function take(button) {
  button.click();
  if ($('clear').open) {
    $('clear').close();
    show([{ label: 'Keep it', does: () => show(all()) }, { label: 'Clear the bench', does: () => { $('clear-do').click(); held(); } }]);
  } else held();
}

function send(words) {
  act.say(words);
  held();
}

// Until the reply is there nothing is marked; where none is on its way, it goes on.
function held() {
  if (!act.waiting()) { show(all()); return; }
  clearTimeout(timer);
  items = [];
  $('scan-rest').textContent = 'Sent; the reply is on its way.';
}

function leave() {
  memory.scan = $('scan-on').checked = false;
  drawScan(reply);
  act.changed();
}

const isLong = () => $('scan-text').scrollHeight > $('scan-text').clientHeight + 4;

function readOn() {
  const text = $('scan-text');
  const atEnd = text.scrollTop + text.clientHeight >= text.scrollHeight - 4;
  text.scrollTop = atEnd ? 0 : text.scrollTop + text.clientHeight * 0.8;
  show(items, at);
}

function show(list, from = 0) {
  items = list;
  at = from;
  $('scan-list').replaceChildren(...items.map(({ label, kind }) => el('li', { class: kind }, label)));
  $('scan-number').textContent = number;
  left = ROUNDS * items.length;
  mark(2); // time to see that it is new
}

function mark(times = 1) {
  clearTimeout(timer);
  $('scan-rest').textContent = left > 0 ? '' : 'Press the switch to go on.';
  [...$('scan-list').children].forEach((item, i) => {
    item.toggleAttribute('data-marked', i === at && left > 0);
    if (i === at) item.scrollIntoView({ block: 'nearest' });
  });
  if (left > 0) timer = setTimeout(next, memory.dwell * 1000 * times);
}

function next() {
  left -= 1;
  at = left > 0 ? (at + 1) % items.length : 0;
  mark();
}

function press() {
  const now = performance.now();
  if (now - pressedAt < BOUNCE || items.length === 0) return;
  pressedAt = now;
  if (left > 0) items[at].does();
  else show(items);
}

// Before all other keys, and instead of them.
function onKey(e) {
  if (!scans() || e.ctrlKey || e.altKey || e.metaKey || $('help').open || e.target.closest?.('#strip') || e.key === 'F8') return;
  if (e.key === 'Escape') leave();
  if (!SWITCH.has(e.key) && e.key !== 'Escape') return;
  e.preventDefault();
  e.stopPropagation();
  if (e.key === 'Escape' || e.repeat) return;
  if ($('preview').open) $('preview').close();
  else press();
}
