// Listening: what the microphone hears goes to the server while somebody
// speaks, and only then.

import { SHUT, answered, before, step } from './voice-gate.js';
import { openMic } from './mic.js';
import { openBrowserEar } from './browser-ear.js';
import { hush, speaking, speakingUrgently } from './mouth.js';

const FRAME = 20; // ms
const KEPT = 3000; // ms of sound that can be sent from before the gate opened
const ANSWER = 12000; // ms to wait for an answer after the last word
const UNUSED = 10 * 60 * 1000; // ms without anything heard, then it switches itself off

export class Listening {
  #link;
  #on;
  #ear = null; // what is open: { stop() }
  #wanted = false;
  #gate = SHUT;
  #kept = []; // the last frames: { speech, pcm }
  #busy = false; // an utterance is open
  #sending = false;
  #answerTimer = 0;
  #unusedTimer = 0;

  /**
   * @param {object} link see connect.js
   * @param {object} on changed(), level(dB), words(text) not yet final, fault(text), missing(): a sentence or "",
   *   useBrowser(): null, or options for browser-ear.js
   */
  constructor(link, on) {
    this.#link = link;
    this.#on = on;
    addEventListener('pagehide', () => this.off());
  }

  /** True while the microphone is open or being opened. */
  get on() { return this.#wanted; }

  /** What it is doing, in a word or two. */
  get doing() {
    if (this.#busy) return this.#sending ? 'Hearing you' : 'Thinking';
    return speaking() ? 'Speaking' : 'Listening';
  }

  /** Switches the microphone on, or off. */
  async toggle() {
    if (this.#wanted) { this.off(); return; }
    const browser = this.#on.useBrowser();
    const missing = browser ? '' : this.#on.missing();
    if (missing) { this.#on.fault(missing); return; }
    this.#wanted = true;
    this.#gate = SHUT;
    this.#used();
    this.#on.changed();
    try {
      const lost = (why) => this.off(typeof why === 'string' ? why : 'The microphone is gone: plug it in again, then switch it on.');
      const ear = browser ? await openBrowserEar(browser, this.#browserHeard, lost) : await openMic((frame) => this.#frame(frame), lost);
      if (this.#wanted && !this.#ear) this.#ear = ear;
      else ear.stop(); // switched off meanwhile
    } catch (error) {
      this.off(error.message);
    }
  }

  /** Switches off; what is being said is dropped. why: a sentence to show. */
  off(why = '') {
    if (!this.#wanted) return;
    this.#wanted = false;
    this.#link.hush();
    this.#done();
    this.#ear?.stop();
    this.#ear = null;
    this.#kept = [];
    clearTimeout(this.#unusedTimer);
    this.#on.changed();
    if (why) this.#on.fault(why);
  }

  /** The server made out words; not yet all of them. */
  hearing(words) {
    if (!words) return;
    hush(); // a word cuts off even what is urgent
    this.#used();
    this.#on.words(words);
  }

  /** The server has answered what was said. */
  answered(understood) {
    this.#gate = answered(this.#gate);
    this.#done();
    if (understood) this.#used();
    this.#on.changed();
  }

  /** The link was cut: what was being said is lost. */
  cut() {
    if (this.#busy) this.answered(false);
  }

  #used() {
    clearTimeout(this.#unusedTimer);
    this.#unusedTimer = setTimeout(() => this.off('Nothing was heard for ten minutes, so the microphone is off. Switch it on again when you need it.'), UNUSED);
  }

  #done() {
    this.#busy = this.#sending = false;
    clearTimeout(this.#answerTimer);
  }

  #frame({ pcm, level, chance }) {
    if (!this.#wanted) return;
    this.#gate = step(this.#gate, { level, chance }, speaking());
    const { event, speech } = this.#gate;
    this.#on.level(level);
    this.#kept = [...this.#kept, { speech, pcm }].slice(-KEPT / FRAME);
    if (event === 'open' && !this.#busy) this.#begin();
    else if (this.#sending) this.#link.sound(speech, pcm);
    if (event === 'close' && this.#sending) this.#finish();
  }

  #begin() {
    if (!this.#link.listen(this.#gate.during)) { this.#gate = answered(this.#gate); return; }
    this.#busy = this.#sending = true;
    for (const { speech, pcm } of this.#kept.slice(-Math.ceil(before(this.#gate) / FRAME))) this.#link.sound(speech, pcm);
    if (!speakingUrgently()) hush();
    this.#on.changed();
  }

  // The server ends an utterance by itself, mostly before this.
  #finish() {
    this.#sending = false;
    this.#answerTimer = setTimeout(() => { this.#link.hush(); this.answered(false); }, ANSWER);
    this.#on.changed();
  }

  #browserHeard = ({ words, sure, others, final }) => {
    if (!this.#wanted) return;
    this.#used();
    if (final) this.#link.send({ kind: 'spoken', text: words, sure, others });
    else this.#on.words(words);
  };
}
