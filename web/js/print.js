// Something to print or keep: shown whole before it goes to paper.

import { $, el, list } from './dom.js';
import { drawing } from './pictures.js';

/** Sets up the preview. */
export function watchPrint() {
  $('print-do').addEventListener('click', () => print());
  $('print-close').addEventListener('click', () => $('preview').close());
  $('preview').addEventListener('close', () => document.body.classList.remove('to-print'));
}

/** Shows a paper, or hands a calendar over as a file. */
export function showPaper(paper) {
  if (paper.calendar) { saveCalendar(paper); return; }
  const made = new Date(paper.made).toLocaleString('en-GB', { dateStyle: 'full', timeStyle: 'short' });
  $('preview-body').replaceChildren(
    el('h2', { id: 'preview-title', tabindex: '-1' }, paper.title),
    el('p', {}, `As of ${made}`),
    ...paper.parts.map(part));
  document.body.classList.add('to-print');
  $('preview').showModal();
  $('preview-title').focus();
}

function part({ title, lines, columns, rows, picture }) {
  return el('section', {},
    el('h3', {}, title),
    list('ul', isMany(lines) ? 'many' : '', lines),
    picture && drawing(picture.svg),
    rows?.length > 0 && el('div', { class: 'numbers', role: 'region', tabindex: '0', 'aria-label': title }, el('table', {},
      el('thead', {}, el('tr', {}, columns.map((text) => el('th', { scope: 'col' }, text)))),
      el('tbody', {}, rows.map(([first, ...others]) => el('tr', {}, el('th', { scope: 'row' }, first), others.map((text) => el('td', {}, text))))))));
}

// Many short lines stand side by side, to save paper.
const isMany = (lines) => lines?.length > 8 && lines.every((line) => line.length < 60);

function saveCalendar(paper) {
  const url = URL.createObjectURL(new Blob([paper.calendar], { type: 'text/calendar' }));
  const link = el('a', { href: url, download: `${paper.title.toLowerCase().replace(/[^a-z0-9]+/g, '-')}.ics` });
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10000);
}
