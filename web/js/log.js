// Everything said so far. Spoken announcements are made elsewhere (say.js), so
// the log itself stays silent: one voice, nothing said twice.

import { $, el } from './dom.js';

/** Puts the earlier turns in place, then lets the region count as a log. */
export function startLog(lines) {
  $('lines').replaceChildren(...lines.map(item));
  $('pages').setAttribute('role', 'log');
  $('pages').setAttribute('aria-live', 'off');
  toEnd();
}

/** Adds turns; follows the newest only when the reader was at the end. */
export function addLines(lines) {
  const atEnd = isAtEnd();
  $('lines').append(...lines.map(item));
  if (atEnd) toEnd();
}

function item(line) {
  return el('li', { 'data-turn': line.turn },
    el('span', { class: 'at' }, String(line.turn)),
    el('p', { class: 'said' }, line.said ? `“${line.said}”` : ''),
    el('p', { class: 'answer' }, line.say));
}

function isAtEnd() {
  const pages = $('pages');
  return pages.scrollHeight - pages.scrollTop - pages.clientHeight < 8;
}

function toEnd() {
  $('pages').scrollTop = $('pages').scrollHeight;
}

/** Opening the book shows its newest page. */
export function watchBook() {
  $('book').addEventListener('toggle', () => { if ($('book').open) toEnd(); });
}
