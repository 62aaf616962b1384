// The page's own sounds: one way out, at the loudness that was chosen, and short
// knocks and tones that differ in their rhythm.

import { memory } from './memory.js';

let context = null; // made at the first touch or key: before that no page may sound

/** Lets sound out from the first touch or key on. */
export function watchSound() {
  const wake = () => { context ??= new AudioContext(); context.resume(); };
  addEventListener('pointerdown', wake, { once: true });
  addEventListener('keydown', wake, { once: true });
}

/** The loudness chosen, 0 to 1. */
export const loudness = () => memory.loud / 4;

/** The audio context, or null before the first touch or key. */
export const output = () => context;

/** What is played, each a row of [s from the start, Hz, s until it has died away]. */
export const SOUNDS = {
  heard: [[0, 523, 0.08], [0.09, 659, 0.12]], // two, close together
  unheard: [[0, 262, 0.35]], // one, long and low
  soon: [[0, 392, 0.25]],
  timer: [[0, 392, 0.25], [0.35, 392, 0.25], [0.7, 392, 0.25]], // three, evenly
  danger: [[0, 784, 0.09], [0.12, 784, 0.09], [0.24, 784, 0.09], [0.36, 784, 0.09], [0.55, 523, 0.7]], // a roll, then a long one
};
const STRENGTH = { heard: 0.2, unheard: 0.25, soon: 0.15, timer: 0.35, danger: 0.5 };

/** Plays heard, unheard, soon, timer or danger. */
export function sound(name) {
  if (!context) return;
  for (const [from, pitch, long] of SOUNDS[name]) tone(context.currentTime + from, pitch, long, STRENGTH[name] * loudness());
}

function tone(at, pitch, long, strength) {
  const source = new OscillatorNode(context, { type: 'triangle', frequency: pitch });
  const gain = new GainNode(context, { gain: 0 });
  gain.gain.setValueAtTime(strength, at);
  gain.gain.exponentialRampToValueAtTime(0.001, at + long);
  source.connect(gain).connect(context.destination);
  source.start(at);
  source.stop(at + long + 0.05);
}
