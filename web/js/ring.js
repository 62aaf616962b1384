// A timer that warns or rings: a strip over the sheet, and a sound of our own.

import { $, el } from './dom.js';

let sound = null; // made at the first touch or key: before that no page may sound

export function watchSound() {
  const wake = () => { sound ??= new AudioContext(); sound.resume(); };
  addEventListener('pointerdown', wake, { once: true });
  addEventListener('keydown', wake, { once: true });
}

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
  if (isNews) knock(rings ? 3 : 1, rings ? 0.25 : 0.1);
}

// Short knocks, as on a bench: a low tone that dies away at once.
function knock(times, loud) {
  if (!sound) return;
  for (let i = 0; i < times; i += 1) {
    const at = sound.currentTime + i * 0.35;
    const tone = new OscillatorNode(sound, { type: 'triangle', frequency: 392 });
    const gain = new GainNode(sound, { gain: 0 });
    gain.gain.setValueAtTime(loud, at);
    gain.gain.exponentialRampToValueAtTime(0.001, at + 0.25);
    tone.connect(gain).connect(sound.destination);
    tone.start(at);
    tone.stop(at + 0.3);
  }
}
