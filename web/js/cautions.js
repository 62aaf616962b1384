// The cautions on top of the sheet, by level in words. Each shows its first
// sentence and folds the rest; a stop stands open when it is first seen.

import { el, fold } from './dom.js';
import { level } from './wording.js';
import { sentences } from './spoken.js';

let seen = new Set(); // ids of the cautions on the sheet before

/** All cautions in a list, or null where there are none. */
export function allCautions(items) {
  const list = cautionList(items, seen);
  seen = new Set(items.map((caution) => caution.id));
  return list;
}

/**
 * While questions go on, cautions that were on the sheet before fold away
 * together to leave room for the answers. A stop never does.
 */
export function standingCautions(items) {
  const before = seen;
  seen = new Set(items.map((caution) => caution.id));
  const isOld = (caution) => caution.level !== 'stop' && before.has(caution.id);
  const old = items.filter(isOld);
  const words = [...new Set(old.map((caution) => level(caution.level)))].join(', ');
  return [
    cautionList(items.filter((caution) => !isOld(caution)), before),
    old.length > 0 && fold(`${words}: ${old.length} still to heed`, cautionList(old, before), { class: 'fold still' }),
  ];
}

function cautionList(items, before) {
  if (items.length === 0) return null;
  return el('ul', { class: 'cautions', role: 'list', 'aria-label': 'Cautions' }, items.map((caution) =>
    el('li', { class: caution.level, 'data-caution': caution.id }, cautionText(caution, before))));
}

function cautionText(caution, before) {
  const [first, ...rest] = sentences(caution.text);
  const line = [el('b', {}, level(caution.level)), ' ', first];
  if (rest.length === 0) return el('p', {}, line);
  const open = caution.level === 'stop' && !before.has(caution.id);
  return el('details', { open }, el('summary', {}, line), el('p', {}, rest.join(' ')));
}
