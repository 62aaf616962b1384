// The cautions on top of the sheet, by level in words.

import { el, fold } from './dom.js';
import { level } from './wording.js';

let seen = new Set(); // ids of those on the sheet before, while questions go on

/** All cautions, or null where there are none. */
export function allCautions(items) {
  seen = new Set();
  return cautionList(items);
}

/**
 * While questions go on, cautions that were read on the sheet before fold away
 * to leave room for the answers. A stop never does, and advice shows them all.
 */
export function standingCautions(items) {
  const isOld = (caution) => caution.level !== 'stop' && seen.has(caution.id);
  const old = items.filter(isOld);
  const now = items.filter((caution) => !isOld(caution));
  seen = new Set(items.map((caution) => caution.id));
  const words = [...new Set(old.map((caution) => level(caution.level)))].join(', ');
  return [cautionList(now), old.length > 0 && fold(`${words}: ${old.length} still to heed`, cautionList(old), { class: 'fold still' })];
}

function cautionList(items) {
  if (items.length === 0) return null;
  return el('ul', { class: 'cautions', role: 'list', 'aria-label': 'Cautions' }, items.map((caution) =>
    el('li', { class: caution.level, 'data-caution': caution.id },
      el('b', {}, level(caution.level)), el('span', {}, caution.text))));
}
