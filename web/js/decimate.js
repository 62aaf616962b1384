// From the microphone's rate to the 16 kHz that is sent: a low-pass of a
// windowed sinc, and only the samples that are left worked out.

export const SENT_RATE = 16000; // Hz

const CUT = 7300; // Hz; with this window what is over 8.0 kHz is gone
const LENGTH = 0.004; // s of sound that one sample is made of: 192 taps at 48 kHz

const divisor = (a, b) => (b === 0 ? a : divisor(b, a % b));

/**
 * The taps of the low-pass for one place between two samples, which add up to 1.
 * Blackman window, as in Oppenheim and Schafer, Discrete-Time Signal Processing,
 * section 7.5 (side lobes 74 dB down).
 * @param {number} rate in Hz
 * @param {number} between 0 to 1, of a sample
 */
export function taps(rate, between) {
  const half = Math.floor((rate * LENGTH) / 2);
  const cut = Math.min(CUT, rate * 0.45) / rate;
  const out = new Float32Array(2 * half);
  let sum = 0;
  for (let i = 0; i < out.length; i += 1) {
    const x = i - half + 1 - between;
    const sinc = x === 0 ? 2 * cut : Math.sin(2 * Math.PI * cut * x) / (Math.PI * x);
    const at = Math.PI * x / half;
    out[i] = sinc * (0.42 + 0.5 * Math.cos(at) + 0.08 * Math.cos(2 * at));
    sum += out[i];
  }
  return out.map((tap) => tap / sum);
}

/** Turns sound of one rate into sound of 16 kHz, piece by piece. */
export class Decimator {
  #up; // of each #down samples that come, #up go
  #down;
  #filters;
  #kept; // the samples that the next ones are still made of
  #at = 0; // of the next sample, in 1/#up of a sample of #kept

  /** @param {number} rate of what comes, in Hz */
  constructor(rate) {
    const common = divisor(rate, SENT_RATE);
    this.#up = SENT_RATE / common;
    this.#down = rate / common;
    this.#filters = Array.from({ length: this.#up }, (_, i) => taps(rate, i / this.#up));
    this.#kept = new Float32Array(this.#filters[0].length - 1);
  }

  /** The next samples at 16 kHz. */
  push(samples) {
    const all = new Float32Array(this.#kept.length + samples.length);
    all.set(this.#kept);
    all.set(samples, this.#kept.length);
    const long = this.#filters[0].length;
    const out = [];
    for (; Math.floor(this.#at / this.#up) + long <= all.length; this.#at += this.#down) {
      const from = Math.floor(this.#at / this.#up);
      const filter = this.#filters[this.#at % this.#up];
      let sum = 0;
      for (let i = 0; i < long; i += 1) sum += filter[i] * all[from + i];
      out.push(sum);
    }
    const used = Math.floor(this.#at / this.#up);
    this.#kept = all.slice(used);
    this.#at -= used * this.#up;
    return out;
  }
}
