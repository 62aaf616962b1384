// The amounts: one table for each sum, with what it takes for granted.

import { $, el, list } from './dom.js';
import { amount, count, number, range } from './wording.js';

const WEIGHED = ['g', 'ml'];

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
  const shape = { weighed: lines.some(weighed), ranged: lines.some(ranged) };
  const narrow = lines.find((line) => line.narrow)?.narrow;
  return [
    el('table', { class: 'sums' },
      name && el('caption', {}, name),
      el('thead', {}, el('tr', {}, heads(shape).map((text) => el('th', { scope: 'col' }, text)))),
      el('tbody', {}, lines.map((line) => rows(line, shape)))),
    narrow && el('p', { class: 'narrow' }, el('b', {}, narrow)),
    together(lines, 'assumes').length > 0 && el('p', { class: 'soft granted' }, 'Taken for granted, as you said nothing else:'),
    list('ul', 'assumes', together(lines, 'assumes')),
    list('ul', 'assumes', together(lines, 'notes')),
  ].filter(Boolean);
}

const together = (lines, key) => [...new Set(lines.flatMap((line) => line[key] ?? []))];
const weighed = (line) => WEIGHED.includes(line.unit ?? 'g');
const ranged = (line) => line.low < line.high;

const heads = (shape) => [
  'What',
  ...(shape.weighed ? WEIGHED : ['how much']),
  ...(shape.ranged ? ['from–to'] : []),
];

// The measures have a row of their own: they are long, and a phone is narrow.
function rows(line, shape) {
  const measures = byMeasure(line);
  return [
    el('tr', {},
      el('th', { scope: 'row' }, line.name),
      howMuch(line, shape.weighed),
      shape.ranged && el('td', { class: 'from' }, ranged(line) ? range(line.low, line.high, line.unit) : '–')),
    measures && el('tr', { class: 'under' }, el('td', { colspan: heads(shape).length }, measures)),
  ];
}

// Among lines in grams and millilitres, one in another unit takes both columns.
function howMuch(line, two) {
  if (line.text) return el('td', { class: 'fill', colspan: two && 2 }, line.text);
  if (!weighed(line)) return el('td', { colspan: two && 2 }, number(line.value, line.unit));
  return [el('td', {}, amount(line.grams)), el('td', {}, amount(line.millilitres))];
}

function byMeasure(line) {
  if (!line.measures?.length) return null;
  const measures = line.measures.map((m) => `${count(m.count)} ${m.measure}`).join(' + ');
  const off = Math.round(line.off ?? 0);
  return off === 0 ? measures : `${measures} (${Math.abs(off)} % ${off > 0 ? 'over' : 'short'})`;
}
