// Replies announced: to a screen reader by a live region, and aloud where that
// is switched on.

import { $ } from './dom.js';
import { memory } from './memory.js';
import { hush, mouthMissing, speak } from './mouth.js';

/** Announces a reply once. Emergencies and timers cut in. */
export function announce(reply, rang = false) {
  const region = rang || reply.phase === 'emergency' ? $('urgent') : $('polite');
  const words = reply.changed ? `${reply.changed} ${reply.say}` : reply.say;
  region.textContent = '';
  setTimeout(() => { region.textContent = words; }, 60); // the same words twice are still news
  if (reply.manner !== 'hush') speak(aloud(reply), reply.phase === 'emergency' && !rang);
}

/** Announces a short remark of the page's own. */
export function remark(text) {
  $('polite').textContent = text;
}

const aloud = (reply) => [reply.changed, reply.aloud || reply.say].filter(Boolean).join(' ');

/** Switches reading aloud on or off. It stays off where there is no voice. */
export function setAloud(on) {
  const missing = on ? mouthMissing() : '';
  if (missing) remark(missing);
  memory.aloud = on && !missing;
  if (!on) hush();
  drawAloud(missing);
}

function drawAloud(missing) {
  const button = $('aloud');
  button.setAttribute('aria-checked', String(memory.aloud));
  button.textContent = missing ? 'No voice here' : 'Read aloud';
  button.disabled = missing !== '';
}

/** To be called when there may be a voice that was not there before. */
export const offerAloud = () => drawAloud('');

/** Sets up the switch; it starts off, and is remembered. */
export function watchAloud(lastReply) {
  offerAloud();
  $('aloud').addEventListener('click', () => {
    setAloud(!memory.aloud);
    if (lastReply()) speak(aloud(lastReply()));
  });
}
