// The strip that stands over everything while the microphone is on: what it is
// doing, how loud it is, and what was heard.

import { $ } from './dom.js';

const SOFT = -65; // dB at which the first mark lights
const LOUD = -15; // dB at which all do
const UNSURE = 0.6; // below this the words heard are shown as a guess

/** Sets up its buttons. actions: stop(), wrong(). */
export function watchStrip(actions) {
  $('mic-stop').addEventListener('click', actions.stop);
  $('wrong').addEventListener('click', () => { showHeard(''); actions.wrong(); });
  new ResizeObserver(([entry]) => {
    document.documentElement.style.setProperty('--strip', `${Math.ceil(entry.borderBoxSize[0].blockSize)}px`);
  }).observe($('strip'));
}

/** Shows the strip and what is being done, or takes it away. */
export function drawStrip(on, doing) {
  $('strip').hidden = !on;
  $('strip').dataset.doing = doing;
  $('doing').textContent = doing;
  $('mic').setAttribute('aria-checked', String(on));
  document.body.toggleAttribute('data-listens', on);
  if (!on) { showLevel(SOFT); showHeard(''); }
}

/** Moves the meter. */
export function showLevel(level) {
  const share = Math.max(0, Math.min(1, (level - SOFT) / (LOUD - SOFT)));
  $('meter').style.setProperty('--share', share.toFixed(2));
}

/** Words made out so far. */
export function showHearing(words) { show('I hear: ', words, false); }

/** Words made out at last; "" takes the line away. */
export function showHeard(words, sure = 1) { show(sure < UNSURE ? 'I think I heard: ' : 'I heard: ', words, true); }

function show(before, words, final) {
  $('heard').hidden = !words;
  $('heard-before').textContent = before;
  $('heard-words').textContent = words;
  $('wrong').disabled = !final;
}
