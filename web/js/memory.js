// What the browser keeps: the talk and its last turn for every tab, the
// requests not yet answered for this tab. Storage may be switched off; then
// the page works until it is reloaded.

function read(store, key, otherwise) {
  try {
    return JSON.parse(window[store].getItem(key)) ?? otherwise;
  } catch {
    return otherwise;
  }
}

function write(store, key, value) {
  try {
    window[store].setItem(key, JSON.stringify(value));
  } catch { /* full or forbidden: go on without */ }
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
};
