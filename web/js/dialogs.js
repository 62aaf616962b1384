// The two dialogs: help with every key, and clearing the bench.

import { $ } from './dom.js';

function watchDialog(name, opener) {
  const dialog = $(name);
  $(opener).addEventListener('click', () => dialog.showModal());
  dialog.addEventListener('click', (e) => { if (e.target === dialog) dialog.close(); });
  return dialog;
}

/** Sets up the help dialog; returns what opens it. */
export function watchHelp(memory) {
  const dialog = watchDialog('help', 'help-open');
  const box = $('keys-on');
  box.checked = memory.singleKeys;
  box.addEventListener('change', () => { memory.singleKeys = box.checked; });
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
