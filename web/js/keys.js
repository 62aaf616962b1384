// Keys and foot pedals. Nothing is taken from somebody who is typing, nor with
// a modifier held.

import { $ } from './dom.js';
import { answerButtons } from './answers.js';

const NEXT = new Set(['ArrowDown', 'ArrowRight', 'PageDown']);
const BEFORE = new Set(['ArrowUp', 'ArrowLeft', 'PageUp']);
const SETTLE = 250; // ms after a new sheet in which a bouncing digit key is let pass
const SECOND_LETTER = 350; // ms in which a second letter makes "w" or "u" the start of a word

let act = null;
let single = () => true;
let drawnAt = 0;
let letterTimer = 0;
let letter = '';

/** Starts listening. actions: undo(), why(), help(), mic(); singleKeys() tells whether those of one character work. */
export function watchKeys(actions, singleKeys) {
  act = actions;
  single = singleKeys;
  document.addEventListener('keydown', onKey);
}

/** To be called when a new sheet is drawn. */
export function sheetDrawn() { drawnAt = performance.now(); }

function onKey(e) {
  if (e.defaultPrevented || e.ctrlKey || e.altKey || e.metaKey || e.isComposing) return;
  if (e.key === 'F8' && !e.repeat) { e.preventDefault(); act.mic(); return; } // whatever is open
  if (document.querySelector('dialog[open]')) return;
  if (NEXT.has(e.key) || BEFORE.has(e.key)) { onStep(e); return; }
  if (e.key === 'Escape' && e.target === $('words')) { focusAnswers(); return; }
  if (isTyping(e.target) || !single() || e.key.length !== 1 || e.repeat) return;
  onSingle(e);
}

function isTyping(target) {
  return target.matches?.('input:not([type="checkbox"]), select, textarea, [contenteditable]');
}

function onSingle(e) {
  if (letter !== '') { startWord(e); return; }
  if (e.key === '?') { e.preventDefault(); act.help(); return; }
  if (e.key === '.') { e.preventDefault(); act.mic(); return; }
  if (e.key === '/') { e.preventDefault(); $('words').focus(); return; }
  if (/^\d$/.test(e.key)) { onDigit(e); return; }
  if (/^[uw]$/i.test(e.key)) { waitForWord(e.key); return; }
  if (/^\p{L}$/u.test(e.key)) $('words').focus(); // the letter itself follows the focus
}

function onDigit(e) {
  const number = $('number');
  if (number) { number.focus(); return; }
  if (performance.now() - drawnAt < SETTLE) return;
  const button = answerButtons().find((b) => b.dataset.n === e.key);
  if (button) { e.preventDefault(); button.click(); } else if (answerButtons().length === 0) $('words').focus();
}

// "w" and "u" are commands when they stand alone, and letters when more follow.
function waitForWord(key) {
  letter = key;
  letterTimer = setTimeout(() => {
    letter = '';
    if (key.toLowerCase() === 'u') act.undo(); else act.why();
  }, SECOND_LETTER);
}

function startWord(e) {
  clearTimeout(letterTimer);
  const words = $('words');
  words.value += letter;
  letter = '';
  words.focus();
  words.setSelectionRange(words.value.length, words.value.length);
}

// Arrows and page keys walk the answers. On a sheet longer than the window
// they first bring the rest of it into view, so a pedal alone can read it all.
function onStep(e) {
  const forward = NEXT.has(e.key);
  if (!stepsHere(e)) return;
  const buttons = answerButtons();
  if (buttons.length === 0) return;
  const at = buttons.indexOf(document.activeElement);
  if (at < 0 && forward && scrollTowards(e, buttons[0].getBoundingClientRect().top - bottomEdge(), 1)) return;
  if (at <= 0 && !forward && scrollTowards(e, -$('sheet').getBoundingClientRect().top, -1)) return;
  const to = forward ? Math.min(at + 1, buttons.length - 1) : Math.max(at - 1, 0);
  e.preventDefault();
  focusButton(buttons[to]);
}

// An empty field has nothing to lose to a pedal; a filled one is being typed in.
function stepsHere(e) {
  const target = e.target;
  if (target.matches?.('#words, #number')) return target.value === '' || (target.id === 'number' && e.key.startsWith('Page'));
  if (isTyping(target)) return false;
  return !target.closest?.('#pages, #side');
}

const bottomEdge = () => {
  const front = $('front').getBoundingClientRect();
  return getComputedStyle($('front')).position === 'sticky' ? front.top : innerHeight;
};

function scrollTowards(e, hidden, sign) {
  if (hidden < 8) return false;
  if (!e.key.startsWith('Page')) return e.key === 'ArrowDown' || e.key === 'ArrowUp'; // the browser scrolls by itself
  e.preventDefault();
  const page = Math.max(120, bottomEdge() * 0.8);
  scrollBy({ top: sign * Math.min(page, hidden + 120), behavior: calm() ? 'auto' : 'smooth' });
  return true;
}

export const calm = () => matchMedia('(prefers-reduced-motion: reduce)').matches;

function focusButton(button) {
  button.focus({ preventScroll: true });
  button.scrollIntoView({ block: 'nearest', behavior: calm() ? 'auto' : 'smooth' });
}

/** Puts the focus where the next answer is given. */
export function focusAnswers() {
  const number = $('number');
  if (number && matchMedia('(pointer: fine)').matches) { number.focus({ preventScroll: true }); return; }
  ($('answers') ?? $('sheet')).focus({ preventScroll: true });
}
