// Replies spoken aloud: by a voice kept on this device, else by the server's.
// Any key or touch stops it; so does somebody who speaks (listening.js).

import { memory } from './memory.js';
import { loudness, output } from './sound.js';

const PACES = ['slow', 'plain', 'quick'];
const RATES = { slow: 0.8, plain: 1, quick: 1.25 };
const LOUDEST = 4;

let on = { changed() {}, fault() {} };
let server = null; // what the server says of its voice
let now = null; // { urgent, stop, timer } of what is being spoken
let next = ''; // waits until something urgent is over

/** Sets it up. actions: changed() when speaking begins or ends, fault(text). */
export function watchMouth(actions) {
  on = actions;
  addEventListener('pointerdown', hush, { capture: true });
  addEventListener('keydown', hush, { capture: true });
  addEventListener('pagehide', hush);
}

/** Takes what the server says of its voice: mouth, mouth_missing. */
export function setServerVoice(voice) { server = voice ?? null; }

/** The voice that is kept on this device, if there is one. */
export function localVoice() {
  const voices = (window.speechSynthesis?.getVoices() ?? []).filter((voice) => voice.localService);
  return voices.find((voice) => voice.lang === 'en-GB') ?? voices.find((voice) => voice.lang.startsWith('en'));
}

/** What is missing for speaking, as a sentence; "" where nothing is. */
export function mouthMissing() {
  if (localVoice() || server?.mouth) return '';
  return `This device has no English voice of its own, so nothing can be read aloud. ${server?.mouth_missing ?? ''}`.trim();
}

/** True while a reply is being spoken. */
export const speaking = () => now !== null;

/** True while something is spoken that noise must not cut off. */
export const speakingUrgently = () => now?.urgent === true;

/** Speaks, where that is switched on. What is urgent is first heard to its end. */
export function speak(text, urgent = false) {
  if (!memory.aloud || !text) return;
  if (speakingUrgently() && !urgent) next = text;
  else begin(text, urgent);
}

/** Stops speaking at once. */
export function hush() {
  next = '';
  if (now) end();
}

function begin(text, urgent) {
  if (now) end();
  const voice = localVoice();
  if (!voice && !server?.mouth) return;
  const mine = { urgent, stop() {} };
  const done = () => {
    if (now !== mine) return;
    end();
    const waiting = next;
    next = '';
    if (waiting) begin(waiting, false);
  };
  now = mine;
  mine.timer = setTimeout(done, 5000 + 160 * text.length); // some browsers never say that they are done
  on.changed();
  if (voice) byBrowser(text, voice, mine, done);
  else byServer(text, mine, done);
}

function end() {
  clearTimeout(now.timer);
  const { stop } = now;
  now = null;
  stop();
  on.changed();
}

function byBrowser(text, voice, mine, done) {
  const speech = new SpeechSynthesisUtterance(text);
  speech.voice = voice;
  speech.lang = voice.lang;
  speech.rate = RATES[memory.pace];
  speech.volume = loudness();
  speech.onend = speech.onerror = done;
  mine.stop = () => speechSynthesis.cancel();
  speechSynthesis.cancel();
  speechSynthesis.speak(speech);
}

// Through the audio context, so that the browser's echo cancellation knows what
// the microphone will pick up.
async function byServer(text, mine, done) {
  const context = output();
  const ended = new AbortController();
  mine.stop = () => ended.abort();
  try {
    if (!context) throw new Error('Touch the page once, then it can speak.');
    const answer = await fetch('aloud', {
      method: 'POST', headers: { 'Content-Type': 'application/json' }, signal: ended.signal,
      body: JSON.stringify({ text, pace: memory.pace }),
    });
    if (!answer.ok) throw new Error((await answer.text()).trim());
    const sound = await context.decodeAudioData(await answer.arrayBuffer());
    if (now !== mine) return;
    const source = new AudioBufferSourceNode(context, { buffer: sound });
    source.connect(new GainNode(context, { gain: loudness() })).connect(context.destination);
    source.onended = done;
    mine.stop = () => source.stop();
    source.start();
  } catch (error) {
    if (now !== mine) return; // stopped on purpose
    on.fault(`The reply could not be spoken. ${error.message}`);
    done();
  }
}

const MANNERS = {
  slower() { memory.pace = PACES[Math.max(0, PACES.indexOf(memory.pace) - 1)]; },
  faster() { memory.pace = PACES[Math.min(PACES.length - 1, PACES.indexOf(memory.pace) + 1)]; },
  quieter() { memory.loud = Math.max(1, memory.loud - 1); },
  louder() { memory.loud = Math.min(LOUDEST, memory.loud + 1); },
  hush,
};

/** Changes how it speaks: slower, faster, quieter, louder or hush. */
export function setManner(manner) { MANNERS[manner]?.(); }

/** Pace and loudness in words. */
export const manner = () => `Pace: ${memory.pace}. Loudness: ${memory.loud} of ${LOUDEST}.`;
