// When somebody speaks to the page: decisions from the level of each frame and
// the chance that it is speech. Pure: a state and a frame give the next state.

const FRAME = 20; // ms
const LIKELY = 0.7; // chance of speech at which it counts
const UNLIKELY = 0.35; // below this it ends
const OVER_NOISE = 10; // dB over the quietest of late, which is some 4 below the mean of the noise
const PLAIN_OVER_NOISE = 15; // dB where only the level tells
const FLOOR = 2000; // ms in which speech has a gap between syllables, and a motor none
const QUIET = -70; // dB; no room is quieter
const SETTLE = 400; // ms that a device takes to give its true level
const OVER_OWN = 8; // dB over our own sound as the microphone hears it
// ms of speech that open the gate, and what a frame without takes off again:
// words have dips
const START = { ms: 60, dip: FRAME };
const START_DURING = { ms: 250, dip: FRAME / 4 }; // while a reply is being spoken
const LEARN = 500; // ms of our own speech that are only listened to
const OWN = 1000; // ms for which our own sound is remembered
const ONSET = 200; // ms that may be the beginning of somebody else's speech
const PAUSE = 240; // ms without speech that end a stretch of it
const END = 900; // ms without speech that close the gate

/** The gate as it is when the microphone is switched on. */
export const SHUT = Object.freeze({
  open: false,
  event: '', // of this frame: open, close
  waiting: false, // closed, and not answered yet
  speech: false, // this frame is taken for speech
  age: 0, // ms since it was switched on
  levels: Object.freeze([]), // dB, of the last two seconds
  run: 0, // ms of speech that count towards opening
  gap: END, // ms since speech
  stretch: 0, // ms since this stretch of speech began
  stretches: 0, // begun since the gate opened
  stale: false, // speech goes on that was answered already
  own: Object.freeze([]), // dB, of the frames in which only we spoke
  spoken: 0, // ms that we have been speaking, or the room has rung with it
  during: false, // speech would be over our own
});

/**
 * The gate after a frame.
 * @param {object} gate
 * @param {object} frame chance 0..1 that it is speech, null where only the level tells; level in dB
 * @param {boolean} speaking a reply is being spoken
 */
export function step(gate, { chance, level }, speaking) {
  const age = gate.age + FRAME;
  const levels = age < SETTLE ? [] : [...gate.levels, level].slice(-FLOOR / FRAME);
  const floor = Math.max(QUIET, Math.min(...levels));
  const known = chance !== null;
  const likely = !known || chance >= (gate.speech ? UNLIKELY : LIKELY);
  const loud = level >= floor + (known ? OVER_NOISE : PLAIN_OVER_NOISE) / (gate.speech ? 2 : 1);
  const speech = likely && loud && age > SETTLE;
  const spoken = speaking || (gate.spoken > 0 && gate.stretch > 0) ? gate.spoken + FRAME : 0;
  const during = speaking && gate.stretch < spoken; // what began before us is not ours
  const counts = speech && (!during || (spoken > LEARN && level >= loudestOwn(gate.own) + OVER_OWN));
  return move({ ...gate, event: '', age, levels, spoken, during, own: nextOwn(gate, level, speaking) }, speech, counts);
}

// The newest frames are left out: they may be somebody beginning to speak.
const loudestOwn = (own) => Math.max(QUIET, ...own.slice(0, -ONSET / FRAME));

function nextOwn({ own, run }, level, speaking) {
  if (!speaking) return [];
  return run > 0 ? own : [...own, level].slice(-(OWN + ONSET) / FRAME);
}

function move(gate, speech, counts) {
  const gap = speech ? 0 : gate.gap + FRAME;
  const anew = speech && gate.stretch === 0;
  const stretch = gap >= PAUSE || !(anew || gate.stretch > 0) ? 0 : gate.stretch + FRAME;
  const stale = gate.stale && stretch > 0;
  const start = gate.during ? START_DURING : START;
  const run = counts && !stale ? gate.run + FRAME : Math.max(0, gate.run - start.dip);
  const next = { ...gate, speech, gap, stretch, stale, run, stretches: gate.stretches + (anew ? 1 : 0) };
  if (!gate.open && !gate.waiting && run >= start.ms) return { ...next, open: true, event: 'open', stretches: 1 };
  if (gate.open && gap >= END) return { ...next, open: false, waiting: true, event: 'close', run: 0 };
  return next;
}

/**
 * The gate after the answer to what it let through. Speech that began before
 * that, and goes on, is not taken for new.
 */
export function answered(gate) {
  return { ...gate, open: false, waiting: false, event: '', run: 0, stale: gate.stretches <= 1 && gate.stretch > 0 };
}

/** How many ms of sound before now belong to the speech that opened the gate. */
export const before = (gate) => gate.stretch + 300;
