// RNNoise in WebAssembly: how likely a piece of sound is a voice. The names of
// imports and exports are those of wasm/rnnoise.wasm.

export const FRAME = 480; // samples at 48 kHz
const SCALE = 32768; // it was trained on 16-bit samples

/** One stream of sound. Throws where the module is not what it should be. */
export class VoiceChance {
  #wasm;
  #state;
  #at; // where the samples go, in bytes

  /** @param {ArrayBuffer} bytes of rnnoise.wasm */
  constructor(bytes) {
    const imports = {
      a: (size) => this.#grow(size),
      b: (to, from, count) => new Uint8Array(this.#wasm.c.buffer).copyWithin(to, from, from + count),
    };
    this.#wasm = new WebAssembly.Instance(new WebAssembly.Module(bytes), { a: imports }).exports;
    this.#wasm.d();
    this.#state = this.#wasm.f(0);
    this.#at = this.#wasm.g(FRAME * 4);
    if (!this.#state || !this.#at) throw new Error('rnnoise.wasm has no room');
  }

  // Only the module itself asks for this, when its memory is full.
  #grow(size) {
    const { c: memory } = this.#wasm;
    return memory.grow(Math.ceil((size - memory.buffer.byteLength) / 65536)) >= 0 ? 1 : 0;
  }

  /** The chance, 0 to 1, that 480 samples are speech; they are denoised in place. */
  of(samples) {
    const room = new Float32Array(this.#wasm.c.buffer, this.#at, FRAME);
    for (let i = 0; i < FRAME; i += 1) room[i] = samples[i] * SCALE;
    const chance = this.#wasm.j(this.#state, this.#at, this.#at);
    const out = new Float32Array(this.#wasm.c.buffer, this.#at, FRAME);
    for (let i = 0; i < FRAME; i += 1) samples[i] = out[i] / SCALE;
    return chance;
  }
}
