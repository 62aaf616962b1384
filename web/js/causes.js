// The likely causes: bars, the share as text, and the reasons.

import { $, el, fold, list } from './dom.js';
import { percent } from './wording.js';

const SHOWN = 4; // the rest is folded away

export function drawCauses(causes) {
  $('causes').hidden = !causes?.length;
  if (!causes?.length) { $('causes-body').replaceChildren(); return; }
  const items = causes.map(causeItem);
  const rest = items.slice(SHOWN);
  $('causes-body').replaceChildren(
    el('ol', { class: 'cause-list', role: 'list' }, items.slice(0, SHOWN)),
    ...(rest.length > 0 ? [fold(`Less likely: ${rest.length}`, el('ol', { class: 'cause-list', role: 'list' }, rest))] : []));
}

function causeItem(cause) {
  const fill = el('i');
  fill.style.width = `${Math.min(100, Math.max(0, cause.share * 100))}%`;
  return el('li', { 'data-cause': cause.id },
    el('div', { class: 'top' }, el('span', { class: 'name' }, cause.title), el('span', { class: 'share' }, percent(cause.share))),
    el('span', { class: 'bar', 'aria-hidden': 'true' }, fill),
    cause.found > 0 && el('p', { class: 'soft' }, `Found here ${cause.found === 1 ? 'once' : `${cause.found} times`}`),
    list('ul', 'because', cause.because));
}
