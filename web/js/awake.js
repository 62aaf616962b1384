// Keeps the screen on while there is something to look at without hands free
// to touch it (Screen Wake Lock API, W3C).

let wanted = false;
let lock = null;
let asking = false;

/** Keeps the screen on, or lets it go. */
export function keepAwake(want) {
  wanted = want;
  settle();
}

document.addEventListener('visibilitychange', settle); // a hidden page has lost its lock

async function settle() {
  if (!wanted && lock) {
    lock.release();
    lock = null;
  }
  if (!wanted || lock || asking || document.hidden || !navigator.wakeLock) return;
  asking = true;
  try {
    const got = await navigator.wakeLock.request('screen');
    got.addEventListener('release', () => { if (lock === got) lock = null; });
    lock = got;
  } catch { /* low battery, or not allowed: the screen goes dark as ever */ }
  asking = false;
  if (!wanted) settle();
}
