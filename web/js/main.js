// The page put together: messages come in, the sheet and the slate are drawn.

import { $ } from './dom.js';
import { memory } from './memory.js';
import { Link } from './connect.js';
import { drawSheet } from './sheet.js';
import { freeAnswers, holdAnswers } from './answers.js';
import { drawCauses } from './causes.js';
import { drawAmounts } from './amounts.js';
import { drawPictures } from './pictures.js';
import { drawTold, focusTold } from './told.js';
import { addLines, startLog, watchBook } from './log.js';
import { announce, offerAloud, remark, setAloud, watchAloud } from './say.js';
import { calm, focusAnswers, sheetDrawn, watchKeys } from './keys.js';
import { drawManner, drawService, watchClear, watchHelp } from './dialogs.js';
import { showState } from './status.js';
import { watchPaper } from './paper.js';
import { drawBeside } from './beside.js';
import { drawTimers, watchTimers } from './timers.js';
import { drawRing } from './ring.js';
import { showPaper, watchPrint } from './print.js';
import { setClock } from './times.js';
import { sound, watchSound } from './sound.js';
import { setManner, setServerVoice, watchMouth } from './mouth.js';
import { Listening } from './listening.js';
import { drawStrip, showHeard, showHearing, showLevel, watchStrip } from './strip.js';
import { useBrowser, watchBrowserEar } from './browser-ear.js';
import { drawScan, watchScan } from './scan.js';
import { keepAwake } from './awake.js';

const SLOW = 400; // ms before a wait is mentioned

let reply = null;
let turn = 0;
let loaded = false;
let slowTimer = 0;
let voice = { missing: 'The page has not reached its server yet.' }; // what the server says of its ears and its voice

const link = new Link(address(), memory, {
  opened: onOpened,
  turn: onTurn,
  fault: onFault,
  unheard: onUnheard,
  hearing: (words) => listening.hearing(words),
  state(name, reason) {
    if (name !== 'connecting' && name !== 'linked') listening.cut();
    showState(name, reason);
  },
});

const listening = new Listening(link, {
  changed: drawListening,
  level: showLevel,
  words: showHearing,
  fault: showFault,
  missing: () => (voice.ears ? '' : voice.missing || 'This server has no speech recogniser, so the microphone is of no use here.'),
  useBrowser,
});

function address() {
  const url = new URL('ws', document.baseURI);
  url.protocol = url.protocol === 'https:' ? 'wss:' : 'ws:';
  return url.href;
}

const act = {
  // An answer is given once: while one is on its way the others are held.
  give(button, request) {
    if (link.waiting) return;
    holdAnswers(button);
    send(request);
  },
  correct(fact, value) { send({ kind: 'correct', fact, value }); },
  undo() { if (!link.waiting && turn > 0) send({ kind: 'undo' }); },
  clear() { askClear(); },
  say(text) { send({ kind: 'say', text }); },
  print(what) {
    hideFault();
    link.ask(what, (paper, why) => { if (paper) showPaper(paper); else showFault(why); });
  },
};

function send(request) {
  hideFault();
  clearTimeout(slowTimer);
  slowTimer = setTimeout(sayWaiting, SLOW);
  link.send(request);
}

function sayWaiting() {
  const linked = $('link').dataset.state === 'linked';
  $('waiting').textContent = linked ? 'Sent; the reply is on its way.' : 'Kept; it goes when the link is back.';
  if (!linked) remark($('waiting').textContent);
}

function onOpened(message, { isNew, before, dropped }) {
  voice = message.voice ?? {};
  setServerVoice(voice);
  offerAloud();
  showService();
  const hadFocus = $('sheet').contains(document.activeElement);
  const stored = storedTurn(message);
  if (isNew || !loaded) startLog(message.log ?? []);
  else addLines((message.log ?? []).filter((line) => line.turn > before));
  const same = loaded && !isNew && message.turn === before && asksTheSame(message.reply);
  if (!same) showOpened(message, message.turn > stored);
  if (!same && hadFocus) focusAnswers();
  if (message.fault) showFault(message.fault);
  giveBack(dropped.at(-1));
  if (!link.waiting) settle();
  if (!loaded && message.reply.phase === 'listening' && matchMedia('(pointer: fine)').matches) $('words').focus();
  loaded = true;
}

// The last turn may have been a timer's: its strip stands until the next one.
function showOpened(message, isNews) {
  const last = message.log?.at(-1);
  const rang = last?.turn === message.turn && !last.said;
  setClock(message.reply.at, false);
  drawRing(message.reply, rang, isNews);
  draw(message.reply, message.turn);
  if (isNews) announce(message.reply, rang);
}

// The book may have been changed while nobody was connected.
const asked = (r) => JSON.stringify([r?.phase, r?.question, r?.build?.step, r?.build?.state]);
const asksTheSame = (next) => asked(next) === asked(reply);

// What was announced before a reload is not announced again.
let toldBefore = memory.talk;
function storedTurn(message) {
  const stored = toldBefore.id === message.talk ? toldBefore.turn : -1;
  toldBefore = { id: message.talk, turn: message.turn };
  return stored;
}

function onTurn(message, request) {
  if (!link.waiting) settle();
  const spoken = isSpoken(request);
  if (spoken) { listening.answered(true); sound('heard'); }
  if (!message) { freeAnswers(); return; }
  toldBefore = { id: toldBefore.id, turn: message.turn };
  const hadFocus = $('sheet').contains(document.activeElement);
  addLines([{ turn: message.turn, said: message.said, say: message.reply.say }]);
  const rang = !message.said; // a maker's turn has their words
  const stays = rang && asksTheSame(message.reply); // a timer takes nobody away from what they do
  setClock(message.reply.at, true);
  drawRing(message.reply, rang, true);
  if (!rang) showHeard(spoken ? message.reply.voice?.words || message.said : '', message.reply.voice?.sure);
  if (message.reply.phase === 'emergency' && reply.phase !== 'emergency') sound('danger');
  draw(message.reply, message.turn, stays);
  takeManner(message.reply.manner);
  announce(message.reply, rang);
  if (!rang) refocus(request, hadFocus);
  else if (hadFocus && !stays) focusAnswers();
}

function draw(next, number, stays = false) {
  reply = next;
  turn = number;
  if (stays) document.body.dataset.turn = number;
  else drawSheet(next, number, act);
  drawAmounts(next.amounts);
  drawPictures(next.pictures);
  drawCauses(next.causes);
  drawTold(next.told, act);
  drawBeside(next, act);
  drawTimers(next, act);
  $('undo').disabled = number === 0;
  entitle();
  stayAwake();
  if (!stays) { sheetDrawn(); drawScan(next); }
}

// A page that listens says so wherever its name is seen.
function entitle() {
  const name = reply?.title ? `${reply.title} – sparehand` : 'sparehand';
  document.title = listening.on ? `● Listening: ${name}` : name;
}

function stayAwake() {
  keepAwake(listening.on || reply?.timers?.some((timer) => timer.state !== 'rung') || reply?.phase === 'building');
}

function drawListening() {
  drawStrip(listening.on, listening.doing);
  entitle();
  stayAwake();
}

function toggleMic() {
  hideFault();
  const was = listening.on;
  if (!was && !memory.aloud) setAloud(true);
  listening.toggle();
  if (listening.on) remark('The microphone is on.');
  else if (was) remark('The microphone is off.');
}

function showService() { drawService(useBrowser() ? 'this browser' : voice.ears, voice.missing || 'none, this server has no speech recogniser.'); }

function takeManner(manner) {
  if (!manner) return;
  setManner(manner);
  drawManner();
}

const isSpoken = (request) => ['listen', 'spoken'].includes(request?.kind);

function onUnheard(message, request) {
  if (!request) return;
  if (!link.waiting) settle();
  listening.answered(false);
  showHeard('');
  sound('unheard');
  if (message.fault) showFault(message.fault);
}

// Whoever typed goes on typing; whoever picked, by key or touch, gets the next
// answers.
function refocus(request, hadFocus) {
  if (request?.kind === 'correct') focusTold(request.fact);
  else if (hadFocus || document.activeElement === document.body) focusAnswers();
  const own = request && request.kind !== 'correct';
  if (own || reply.phase === 'emergency') scrollTo({ top: 0, behavior: calm() ? 'auto' : 'smooth' });
}

// A fault with a reply: the book has changed, and asks something else now.
function onFault(message, request) {
  settle();
  if (isSpoken(request)) { listening.answered(false); showHeard(''); }
  if (message.reply) draw(message.reply, message.turn);
  freeAnswers();
  drawScan(reply);
  showFault(message.fault);
  giveBack(request);
}

// Words that were not taken go back to where they were typed.
function giveBack(request) {
  if (request?.kind === 'say' && $('words').value === '') $('words').value = request.text;
}

function settle() {
  clearTimeout(slowTimer);
  $('waiting').textContent = '';
}

function showFault(text) {
  $('fault').textContent = text;
  $('fault').hidden = false;
  remark(text);
}

function hideFault() { $('fault').hidden = true; }

function why() {
  const asked = reply?.phase === 'advising' ? null : document.querySelector('[data-why]');
  if (!asked) { send({ kind: 'say', text: 'why' }); return; }
  asked.open = !asked.open;
  if (asked.open) remark(asked.querySelector('p').textContent);
}

$('front').addEventListener('submit', (e) => {
  e.preventDefault();
  const text = $('words').value.trim();
  if (text === '') return;
  $('words').value = '';
  if (matchMedia('(pointer: coarse)').matches) $('words').blur(); // the keypad would cover the answers
  send({ kind: 'say', text });
});
$('undo').addEventListener('click', act.undo);
$('retry').addEventListener('click', () => link.tryNow());

const openHelp = watchHelp(memory);
const askClear = watchClear(() => { loaded = false; hideFault(); link.renew(); });
watchKeys({ undo: act.undo, why, help: openHelp, mic: toggleMic }, () => memory.singleKeys);
watchMouth({ changed: drawListening, fault: showFault });
watchAloud(() => reply);
window.speechSynthesis?.addEventListener('voiceschanged', () => { offerAloud(); showService(); });
$('mic').addEventListener('click', toggleMic);
watchStrip({ stop: () => listening.off(), wrong: () => act.say('wrong') });
watchBrowserEar(() => { listening.off(); showService(); });
watchScan({ say: act.say, undo: act.undo, waiting: () => link.waiting, changed: focusAnswers });
watchBook();
watchTimers(act);
watchSound();
watchPrint();
watchPaper();
link.tryNow();
