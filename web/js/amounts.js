// The amounts: one table for each sum, with what it takes for granted.

import { $, el, list } from './dom.js';
import { amount, count } from './wording.js';

export function drawAmounts(amounts) {
  $('amounts').hidden = !amounts?.length;
  const sums = Map.groupBy ? Map.groupBy(amounts ?? [], (line) => line.for) : groupBy(amounts ?? []);
  $('amounts-body').replaceChildren(...[...sums].flatMap(([name, lines]) => sum(name, lines)));
}

function groupBy(lines) {
  const sums = new Map();
  for (const line of lines) sums.set(line.for, [...(sums.get(line.for) ?? []), line]);
  return sums;
}

function sum(name, lines) {
  const measured = lines.some((line) => line.measures?.length > 0);
  const head = ['What', 'g', 'ml', ...(measured ? ['by measure'] : [])];
  return [
    el('table', { class: 'sums' },
      name && el('caption', {}, name),
      el('thead', {}, el('tr', {}, head.map((text) => el('th', { scope: 'col' }, text)))),
      el('tbody', {}, lines.map((line) => row(line, measured)))),
    list('ul', 'assumes', [...new Set(lines.flatMap((line) => line.assumes ?? []))]),
  ].filter(Boolean);
}

function row(line, measured) {
  const measures = (line.measures ?? []).map((m) => `${count(m.count)} ${m.measure}`).join(' + ');
  return el('tr', {},
    el('th', { scope: 'row' }, line.name),
    el('td', {}, amount(line.grams)),
    el('td', {}, amount(line.millilitres)),
    measured && el('td', { class: 'fill' }, measures || '–'));
}
