// Replies spoken: to a screen reader by a live region, and on request aloud by
// a voice that is kept on this device.

import { $ } from './dom.js';

let aloud = false;

/** Announces a reply once. Emergencies and timers cut in. */
export function announce(reply, rang = false) {
  const region = rang || reply.phase === 'emergency' ? $('urgent') : $('polite');
  const words = reply.changed ? `${reply.changed} ${reply.say}` : reply.say;
  region.textContent = '';
  setTimeout(() => { region.textContent = words; }, 60); // the same words twice are still news
  if (aloud) readAloud(words);
}

/** Announces a short remark of the page's own. */
export function remark(text) {
  $('polite').textContent = text;
}

function localVoice() {
  const voices = (window.speechSynthesis?.getVoices() ?? []).filter((voice) => voice.localService);
  return voices.find((voice) => voice.lang === 'en-GB') ?? voices.find((voice) => voice.lang.startsWith('en'));
}

function readAloud(words) {
  const voice = localVoice();
  if (!voice) return;
  const speech = new SpeechSynthesisUtterance(words);
  speech.voice = voice;
  speech.lang = voice.lang;
  speechSynthesis.cancel();
  speechSynthesis.speak(speech);
}

/** Sets up the switch; it starts off, and stays off without a local voice. */
export function watchAloud(lastWords) {
  const button = $('aloud');
  button.addEventListener('click', () => {
    if (!aloud && !localVoice()) {
      remark('This device has no English voice of its own, so nothing can be read aloud.');
      button.textContent = 'No voice here';
      button.disabled = true;
      return;
    }
    aloud = !aloud;
    button.setAttribute('aria-checked', String(aloud));
    if (aloud) readAloud(lastWords());
    else speechSynthesis.cancel();
  });
  window.speechSynthesis?.addEventListener('voiceschanged', () => {
    button.textContent = 'Read aloud';
    button.disabled = false;
  });
}
