// The link to the server: open or go on with a talk, send, send again what was
// not answered, and come back after a break. Draws nothing.

const VERSION = 1;
const FIRST_PAUSE = 500; // ms
const LONGEST_PAUSE = 30000; // ms
const PATIENCE = 10000; // ms without an answer before the link counts as cut
const NAP = 20000; // ms hidden after which a link may have died in its sleep

// Close codes after which coming back would only meet the same end: protocol
// error, wrong kind of data, policy (RFC 6455, section 7.4.1), and the
// server's own from 4100 on.
const isFinal = (code) => [1002, 1003, 1008].includes(code) || (code >= 4100 && code < 4200);
const TOO_BIG = 1009;

/** Pause in ms before try number n (0-based): doubling, the upper half random. */
export function pause(n, random = Math.random) {
  const whole = Math.min(LONGEST_PAUSE, FIRST_PAUSE * 2 ** n);
  return whole / 2 + (random() * whole) / 2;
}

// Not randomUUID: that is missing where the page is served by plain http to
// another machine in the workshop.
function newRef() {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (b) => b.toString(16).padStart(2, '0')).join('');
}

export class Link {
  #url;
  #memory;
  #on;
  #socket = null;
  #ready = false; // opened was received on this socket
  #tries = 0;
  #retryTimer = 0;
  #patienceTimer = 0;
  #stopped = false;
  #hiddenSince = 0;
  #talk;
  #turn = 0; // last turn shown by this page
  #unanswered;
  #papers = new Map(); // asked for, by ref; not kept over a reload
  #utterance = ''; // ref of the one that is being heard

  /**
   * @param {string} url of the websocket
   * @param {object} memory see memory.js
   * @param {object} on opened(message, {isNew, before, dropped}), turn(message, request), fault(message, request),
   *   unheard(message, request), hearing(words), state(name)
   */
  constructor(url, memory, on) {
    this.#url = url;
    this.#memory = memory;
    this.#on = on;
    this.#talk = memory.talk.id;
    this.#unanswered = memory.unanswered;
    addEventListener('online', () => this.tryNow());
    addEventListener('offline', () => this.#cut());
    addEventListener('pagehide', () => this.#drop());
    addEventListener('pageshow', (e) => { if (e.persisted) this.tryNow(); });
    document.addEventListener('visibilitychange', () => {
      if (document.hidden) this.#rest();
      else this.#wake();
    });
  }

  /** True while a request waits for its answer. */
  get waiting() { return this.#unanswered.length > 0; }

  /** Connects now, whatever pause was running. */
  tryNow() {
    this.#stopped = false;
    this.#tries = 0;
    this.#connect();
  }

  /** Sends a request, now or when the link is back. */
  send(request) {
    const whole = { v: VERSION, ref: newRef(), ...request };
    this.#keep([...this.#unanswered, whole]);
    if (this.#ready) this.#write(whole);
    else this.#connect();
  }

  /** Asks for something to print: done(paper), or done(null, why). */
  ask(what, done) {
    if (!this.#ready) { done(null, 'The link is down just now: try again when it is back.'); return; }
    const request = { v: VERSION, kind: 'paper', ref: newRef(), text: what };
    this.#papers.set(request.ref, done);
    this.#write(request);
  }

  /**
   * Begins an utterance; false where the link is down. Its sound is lost with the
   * link, so it is not kept like other requests. during: a reply is being spoken.
   */
  listen(during) {
    if (!this.#ready) return false;
    this.#utterance = newRef();
    this.#socket.send(JSON.stringify({ v: VERSION, kind: 'listen', ref: this.#utterance, ...(during && { during }) }));
    return true;
  }

  /** Sends a frame of the utterance: 16-bit samples at 16 kHz. */
  sound(isSpeech, pcm) {
    if (!this.#ready || !this.#utterance) return;
    const frame = new Uint8Array(1 + pcm.byteLength);
    frame[0] = isSpeech ? 1 : 0;
    const view = new DataView(frame.buffer);
    pcm.forEach((sample, i) => view.setInt16(1 + 2 * i, sample, true));
    this.#socket.send(frame);
  }

  /** Drops the utterance; no turn comes of it. */
  hush() {
    if (!this.#utterance) return;
    this.#socket.send(JSON.stringify({ v: VERSION, kind: 'hush', ref: this.#utterance }));
    this.#utterance = '';
  }

  /** Leaves the talk and opens a new one. */
  renew() {
    this.#drop();
    this.#talk = '';
    this.#turn = 0;
    this.#keep([]);
    this.tryNow();
  }

  #connect() {
    clearTimeout(this.#retryTimer);
    if (this.#socket || this.#stopped) return;
    if (!navigator.onLine) { this.#on.state('offline'); return; }
    this.#on.state('connecting');
    const socket = new WebSocket(this.#url);
    this.#socket = socket;
    socket.onopen = () => socket.send(JSON.stringify({ v: VERSION, kind: 'open', talk: this.#talk, turn: this.#turn }));
    socket.onmessage = (e) => this.#receive(JSON.parse(e.data));
    socket.onclose = (e) => this.#closed(e);
    this.#watch();
  }

  #receive(message) {
    clearTimeout(this.#patienceTimer);
    const paper = this.#papers.get(message.ref);
    if (paper) {
      this.#papers.delete(message.ref);
      paper(message.paper ?? null, message.fault);
    } else if (message.kind === 'opened') this.#opened(message);
    else if (message.kind === 'turn') this.#taken(message);
    else if (message.kind === 'fault') this.#refused(message);
    else if (message.kind === 'unheard') this.#on.unheard(message, this.#answered(message.ref));
    else if (message.kind === 'hearing' && message.ref === this.#utterance) this.#on.hearing(message.said);
    if (this.waiting) this.#watch();
  }

  #opened(message) {
    const asked = this.#talk;
    const isNew = asked !== message.talk;
    const dropped = isNew && asked !== '' ? this.#unanswered : []; // they belong to a talk that is gone
    if (dropped.length > 0) this.#keep([]);
    if (isNew) this.#turn = 0;
    const before = this.#turn;
    this.#talk = message.talk;
    this.#tries = 0;
    this.#ready = true;
    this.#show(message.turn);
    this.#on.state('linked');
    this.#on.opened(message, { isNew, before, dropped });
    for (const request of this.#unanswered) this.#write(request);
  }

  #taken(message) {
    const request = this.#answered(message.ref);
    if (message.turn <= this.#turn) { // sent again: shown already
      this.#on.turn(null, request);
      return;
    }
    this.#show(message.turn);
    this.#on.turn(message, request);
  }

  #refused(message) {
    this.#on.fault(message, this.#answered(message.ref));
  }

  #answered(ref) {
    if (ref && ref === this.#utterance) {
      this.#utterance = '';
      return { kind: 'listen', ref };
    }
    const request = this.#unanswered.find((r) => r.ref === ref);
    if (request) this.#keep(this.#unanswered.filter((r) => r !== request));
    return request;
  }

  #show(turn) {
    this.#turn = turn;
    this.#memory.talk = { id: this.#talk, turn };
  }

  #keep(requests) {
    this.#unanswered = requests;
    this.#memory.unanswered = requests;
  }

  #write(request) {
    this.#socket.send(JSON.stringify(request));
    this.#watch();
  }

  // A link can die without a word; then the answer is what fails to come.
  #watch() {
    clearTimeout(this.#patienceTimer);
    this.#patienceTimer = setTimeout(() => this.#cut(), PATIENCE);
  }

  #closed(event) {
    this.#drop();
    if (event.code === TOO_BIG) this.#keep([]); // sent again it would meet the same end
    if (isFinal(event.code)) {
      this.#stopped = true;
      this.#on.state('stopped', event.reason);
      return;
    }
    this.#later();
  }

  #cut() {
    this.#drop();
    this.#later();
  }

  // Lets go of the socket without waiting for its closing handshake.
  #drop() {
    clearTimeout(this.#retryTimer);
    clearTimeout(this.#patienceTimer);
    this.#ready = false;
    this.#utterance = '';
    if (!this.#socket) return;
    this.#socket.onopen = this.#socket.onmessage = this.#socket.onclose = null;
    this.#socket.close();
    this.#socket = null;
  }

  #later() {
    if (!navigator.onLine) { this.#on.state('offline'); return; }
    if (document.hidden) { this.#rest(); return; }
    this.#on.state('cut');
    this.#retryTimer = setTimeout(() => this.#connect(), pause(this.#tries));
    this.#tries += 1;
  }

  // A phone that slept may hold a dead link without knowing; a fresh one costs
  // less than waiting for the old one to fail.
  #wake() {
    if (Date.now() - this.#hiddenSince > NAP) this.#drop();
    if (!this.#socket) this.tryNow();
  }

  #rest() {
    this.#hiddenSince = Date.now();
    if (this.#socket) return; // a link that stands is left standing
    clearTimeout(this.#retryTimer);
    this.#on.state('hidden');
  }
}
