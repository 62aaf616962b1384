// A timer that warns or rings: a strip over the sheet, and a sound of our own.

import { $, el } from './dom.js';
import { sound } from './sound.js';

/**
 * Shows what a timer has to say, where it was one that spoke; else the strip
 * goes. isNews: it was not shown before, so it is heard as well.
 */
export function drawRing(reply, spoke, isNews) {
  $('ring').hidden = !spoke;
  $('ring').replaceChildren();
  if (!spoke) return;
  const rings = reply.timers?.[0]?.state === 'rung';
  $('ring').append(el('b', {}, rings ? 'Timer' : 'Soon'), el('span', {}, reply.say));
  if (isNews) sound(rings ? 'timer' : 'soon');
}
