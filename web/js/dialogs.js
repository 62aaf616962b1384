// The two dialogs: help with every key and setting, and clearing the bench.

import { $ } from './dom.js';
import { localVoice, manner, mouthMissing, setManner, speak } from './mouth.js';

function watchDialog(name, opener) {
  const dialog = $(name);
  $(opener).addEventListener('click', () => dialog.showModal());
  dialog.addEventListener('click', (e) => { if (e.target === dialog) dialog.close(); });
  return dialog;
}

/** Says in the help who listens and who speaks. ears: a name or ""; missing: a sentence. */
export function drawService(ears, missing) {
  const mouth = localVoice() ? `${localVoice().name}, a voice of this device.` : mouthMissing() || 'the server’s own.';
  $('service').textContent = `Ears: ${ears ? `${ears}.` : missing} Voice: ${mouth}`;
}

/** Shows pace and loudness. */
export function drawManner() { $('manner').textContent = manner(); }

/** Sets up the help dialog; returns what opens it. */
export function watchHelp(memory) {
  const dialog = watchDialog('help', 'help-open');
  const box = $('keys-on');
  box.checked = memory.singleKeys;
  box.addEventListener('change', () => { memory.singleKeys = box.checked; });
  $('manners').addEventListener('click', (e) => {
    if (!e.target.dataset.manner) return;
    setManner(e.target.dataset.manner);
    drawManner();
    speak('This is how I speak now.');
  });
  drawManner();
  $('help-close').addEventListener('click', () => dialog.close());
  return () => dialog.showModal();
}

/** Sets up the dialog that asks before a talk is put away; returns what opens it. */
export function watchClear(clear) {
  const dialog = watchDialog('clear', 'clear-open');
  $('clear-keep').addEventListener('click', () => dialog.close());
  $('clear-do').addEventListener('click', () => { dialog.close(); clear(); });
  return () => dialog.showModal();
}
