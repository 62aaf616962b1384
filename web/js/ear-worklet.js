// Runs on the sound thread: cuts what the microphone hears into frames of 20 ms
// at 16 kHz, each with its level and the chance that it is speech.

import { Decimator } from './decimate.js';
import { FRAME, VoiceChance } from './rnnoise.js';

const SEND_DENOISED = false; // whether the recogniser gets the sound as RNNoise has cleaned it
const SENT = 320; // samples of a frame that is sent: 20 ms
const SILENT = -96; // dB, of nothing at all

class Ear extends AudioWorkletProcessor {
  #decimator = new Decimator(sampleRate);
  #chances; // null: this device's rate is not 48 kHz, or there is no module
  #piece = new Float32Array(FRAME);
  #filled = 0;
  #waiting = []; // at 16 kHz, not yet a frame
  #chance = 0;

  constructor({ processorOptions }) {
    super();
    try {
      this.#chances = processorOptions.voice && sampleRate === 48000 ? new VoiceChance(processorOptions.voice) : null;
    } catch {
      this.#chances = null;
    }
  }

  process([input]) {
    const samples = input[0];
    for (let i = 0; samples && i < samples.length; i += 1) {
      this.#piece[this.#filled] = samples[i];
      this.#filled += 1;
      if (this.#filled === FRAME) this.#onPiece();
    }
    return true;
  }

  #onPiece() {
    this.#filled = 0;
    const piece = this.#piece.slice();
    if (this.#chances) this.#chance = Math.max(this.#chance, this.#chances.of(piece));
    this.#waiting.push(...this.#decimator.push(SEND_DENOISED ? piece : this.#piece));
    while (this.#waiting.length >= SENT) this.#post(this.#waiting.splice(0, SENT));
  }

  #post(samples) {
    const pcm = Int16Array.from(samples, (x) => Math.max(-32768, Math.min(32767, Math.round(x * 32768))));
    const power = samples.reduce((sum, x) => sum + x * x, 0) / samples.length;
    const level = Math.max(SILENT, 10 * Math.log10(power + 1e-12));
    this.port.postMessage({ pcm, level, chance: this.#chances ? this.#chance : null }, [pcm.buffer]);
    this.#chance = 0;
  }
}

registerProcessor('ear', Ear);
