// The browser's own speech recognition (Web Speech API, draft of the W3C), where
// the maker wants it. Without a promise that the sound stays on this machine it
// is off, unless the maker says in so many words that it may leave.

import { $ } from './dom.js';
import { memory } from './memory.js';
import { speaking } from './mouth.js';

const LANG = 'en-GB';
const AGAIN = 300; // ms before it is started again after it has ended by itself
const Recognition = window.SpeechRecognition ?? window.webkitSpeechRecognition;

let away = false; // the maker lets sound leave; asked anew after each reload

/** Whether the browser promises to recognise English on this machine. */
export async function recognisesHere() {
  if (typeof Recognition?.available !== 'function') return false;
  try {
    return await Recognition.available({ langs: [LANG], processLocally: true }) === 'available';
  } catch {
    return false;
  }
}

/** Null where the server listens, else how the browser is to: { here }. */
export const useBrowser = () => (Recognition && memory.browserEar ? { here: !away } : null);

/** Sets up the choice in the help; it is shown only where there is something to choose. */
export function watchBrowserEar(changed) {
  $('browser-ear-choice').hidden = !Recognition;
  const box = $('browser-ear');
  const agreed = [$('away-sound'), $('away-others')];
  const set = (on, leaves) => {
    memory.browserEar = box.checked = on;
    away = leaves;
    $('away').hidden = true;
    changed();
  };
  box.checked = memory.browserEar;
  box.addEventListener('change', async () => {
    if (!box.checked) { set(false, false); return; }
    if (await recognisesHere()) { set(true, false); return; }
    box.checked = false;
    agreed.forEach((other) => { other.checked = false; });
    $('away-on').disabled = true;
    $('away').hidden = false;
  });
  agreed.forEach((other) => other.addEventListener('change', () => { $('away-on').disabled = !agreed.every((each) => each.checked); }));
  $('away-on').addEventListener('click', () => set(true, true));
  $('away-off').addEventListener('click', () => set(false, false));
}

/**
 * Opens the recogniser. It does not listen while a reply is being spoken, which
 * it would take for the maker.
 * @param {object} how here: on this machine only
 * @param {function} onWords takes {words, sure 0..1, others, final}
 * @param {function} onLost takes a sentence
 */
export async function openBrowserEar({ here }, onWords, onLost) {
  if (here && !await recognisesHere()) {
    throw new Error('This browser no longer promises to recognise speech on this machine: choose again in the help.');
  }
  const recogniser = new Recognition();
  Object.assign(recogniser, { lang: LANG, continuous: true, interimResults: true, maxAlternatives: 4, ...(here && { processLocally: true }) });
  let wanted = true;
  let running = false;
  const start = () => {
    if (!wanted || running || speaking()) return;
    running = true;
    recogniser.start();
  };
  const watch = setInterval(() => { if (speaking() && running) recogniser.abort(); else start(); }, AGAIN);
  const stop = () => { wanted = false; clearInterval(watch); recogniser.abort(); };
  recogniser.onend = () => { running = false; };
  recogniser.onresult = (e) => { for (let i = e.resultIndex; i < e.results.length; i += 1) onWords(heard(e.results[i])); };
  recogniser.onerror = (e) => {
    if (['no-speech', 'aborted'].includes(e.error)) return;
    stop();
    onLost(`The browser’s recogniser stopped (${e.error}): switch the microphone on again, or let the server listen.`);
  };
  start();
  return { stop };
}

function heard(result) {
  const [best, ...others] = result;
  return { words: best.transcript.trim(), sure: best.confidence, others: others.slice(0, 3).map((other) => other.transcript.trim()), final: result.isFinal };
}
