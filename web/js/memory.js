// What the browser keeps: the talk and its last turn for every tab, the
// requests not yet answered for this tab, and how the maker wants the page.
// Storage may be switched off; then the page works until it is reloaded.

const unstored = new Map();

function read(store, key, otherwise) {
  if (unstored.has(key)) return unstored.get(key);
  try {
    return JSON.parse(window[store].getItem(key)) ?? otherwise;
  } catch {
    return otherwise;
  }
}

function write(store, key, value) {
  try {
    window[store].setItem(key, JSON.stringify(value));
  } catch { unstored.set(key, value); } // full or forbidden
}

export const memory = {
  get talk() { return read('localStorage', 'sparehand.talk', { id: '', turn: 0 }); },
  set talk(value) { write('localStorage', 'sparehand.talk', value); },

  get unanswered() { return read('sessionStorage', 'sparehand.unanswered', []); },
  set unanswered(value) { write('sessionStorage', 'sparehand.unanswered', value); },

  get ahead() { return read('localStorage', 'sparehand.ahead', 0); },
  set ahead(value) { write('localStorage', 'sparehand.ahead', value); },

  get singleKeys() { return read('localStorage', 'sparehand.single-keys', true); },
  set singleKeys(value) { write('localStorage', 'sparehand.single-keys', value); },

  get aloud() { return read('localStorage', 'sparehand.aloud', false); },
  set aloud(value) { write('localStorage', 'sparehand.aloud', value); },

  get pace() { return read('localStorage', 'sparehand.pace', 'plain'); }, // slow, plain, quick
  set pace(value) { write('localStorage', 'sparehand.pace', value); },

  get loud() { return read('localStorage', 'sparehand.loud', 3); }, // 1 to 4
  set loud(value) { write('localStorage', 'sparehand.loud', value); },

  get browserEar() { return read('localStorage', 'sparehand.browser-ear', false); },
  set browserEar(value) { write('localStorage', 'sparehand.browser-ear', value); },

  get scan() { return read('localStorage', 'sparehand.scan', false); },
  set scan(value) { write('localStorage', 'sparehand.scan', value); },

  get dwell() { return read('localStorage', 'sparehand.dwell', 1.5); }, // s
  set dwell(value) { write('localStorage', 'sparehand.dwell', value); },
};
