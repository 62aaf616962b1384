// What the assistant has been told, each line correctable where it stands.

import { $, el } from './dom.js';
import { unit, withUnit } from './wording.js';

const NOT_SURE = 'not sure'; // the server takes these words for any choice

let editing = ''; // the fact whose line is open
let last = []; // what was drawn last
let act = null;

/** Draws the lines. correct(fact, value) sends a change; value "" forgets. */
export function drawTold(told, actions) {
  act = actions;
  last = told ?? [];
  if (!last.some((line) => line.fact === editing)) editing = '';
  const open = editing === '' ? null : $('told-body').querySelector('.told-edit');
  const kept = open?.closest('li'); // a line being changed keeps its field and its focus
  if (last.length === 0) {
    $('told-body').replaceChildren(el('p', { class: 'soft' }, 'Nothing yet. Each thing you tell me is written here, and can be put right here.'));
    return;
  }
  const rows = last.map((line) => (line.fact === editing && kept ? kept : el('li', { 'data-told': line.fact }, plainRow(line))));
  swapRows(rows, kept);
}

// The kept row must not leave the document, or it would lose the focus.
function swapRows(rows, kept) {
  const body = $('told-body');
  if (!kept) {
    body.replaceChildren(el('ul', { class: 'told-list', role: 'list' }, rows));
    return;
  }
  const at = rows.indexOf(kept);
  const parent = kept.parentNode;
  [...parent.children].forEach((row) => { if (row !== kept) row.remove(); });
  kept.before(...rows.slice(0, at));
  kept.after(...rows.slice(at + 1));
}

function plainRow(line) {
  const tag = line.derived ? ' (worked out)' : '';
  return el('div', { class: 'told-row' },
    el('span', { class: 'ask-of', id: `ask-${line.fact}` }, line.ask),
    el('span', { class: 'value' }, line.label, tag && el('small', {}, tag)),
    el('button', { type: 'button', class: 'plain', 'aria-describedby': `ask-${line.fact}`, onclick: () => openRow(line.fact) }, 'Change'));
}

function rowOf(fact) {
  return $('told-body').querySelector(`[data-told="${CSS.escape(fact)}"]`);
}

function openRow(fact) {
  if (editing) closeRow(false);
  editing = fact;
  const line = last.find((l) => l.fact === fact);
  const row = rowOf(fact);
  row.replaceChildren(editForm(line));
  row.querySelector('select, input').focus();
}

function closeRow(refocus = true) {
  const fact = editing;
  editing = '';
  const line = last.find((l) => l.fact === fact);
  const row = rowOf(fact);
  if (!line || !row) return;
  row.replaceChildren(plainRow(line));
  if (refocus) row.querySelector('button').focus();
}

function editForm(line) {
  const field = line.options?.length > 0 ? chooser(line) : measure(line);
  return el('form', {
    class: 'told-edit', novalidate: true,
    onsubmit: (e) => { e.preventDefault(); save(line, field); },
    onkeydown: (e) => { if (e.key === 'Escape') { e.stopPropagation(); closeRow(); } },
  },
    el('label', { for: 'told-field' }, line.ask),
    el('div', { class: 'with-unit' }, field, !line.options?.length && line.unit && el('span', { 'aria-hidden': 'true' }, unit(line.unit).short)),
    el('div', { class: 'row' },
      el('button', { type: 'submit' }, 'Put right'),
      !line.derived && el('button', { type: 'button', class: 'plain', onclick: () => send(line.fact, '') }, 'Forget it'),
      el('button', { type: 'button', class: 'plain', onclick: () => closeRow() }, 'Leave it')));
}

function chooser(line) {
  const now = line.not_sure ? NOT_SURE : typeof line.value === 'boolean' ? (line.value ? 'yes' : 'no') : String(line.value);
  const options = [...line.options, { value: NOT_SURE, label: 'not sure' }];
  return el('select', { id: 'told-field' }, options.map((option) =>
    el('option', { value: option.value, selected: option.value === now }, option.label)));
}

function measure(line) {
  const input = el('input', { id: 'told-field', type: 'text', inputmode: 'decimal', maxlength: 60, autocomplete: 'off' });
  input.value = line.not_sure || line.value === null ? '' : String(Number(Number(line.value).toFixed(3)));
  return input;
}

function save(line, field) {
  const text = field.value.trim();
  if (text === '') { field.focus(); return; }
  send(line.fact, line.options?.length ? text : withUnit(text, line.unit));
}

function send(fact, value) {
  closeRow();
  act.correct(fact, value);
}

/** Puts the focus on a line after it was changed, or on the slate's next line. */
export function focusTold(fact) {
  const button = rowOf(fact)?.querySelector('button') ?? $('told-body').querySelector('button');
  button?.focus({ preventScroll: true });
}
