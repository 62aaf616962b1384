// The ways to answer: numbered plates, or a number with its unit.

import { $, el } from './dom.js';
import { unit, withUnit } from './wording.js';

function plate(key, label, attrs) {
  return el('button', { type: 'button', class: 'answer-key', ...attrs },
    el('b', {}, el('span', { class: 'unseen' }, 'Answer '), key), el('span', {}, label));
}

function unsure(act, attrs = {}) {
  return plate('0', 'Not sure', {
    class: 'answer-key unsure', 'data-n': '0', ...attrs,
    onclick: (e) => act.give(e.currentTarget, { kind: 'pick', n: 0 }),
  });
}

/** The answers to a question with options. */
export function answers(question, act) {
  const options = question.options.map((option) => el('li', {}, plate(String(option.n), option.label, {
    'data-n': option.n,
    onclick: (e) => act.give(e.currentTarget, { kind: 'pick', n: option.n }),
  })));
  return group(el('ol', { role: 'list' }, options, el('li', {}, unsure(act))), options.length < 3);
}

/** The form for a number; it is sent as words, so any unit can be written. */
export function numberForm(question, act) {
  const words = unit(question.unit);
  const form = el('form', { class: 'measure', novalidate: true, onsubmit: (e) => { e.preventDefault(); giveNumber(form, question, act); } },
    el('label', { for: 'number' }, words.long ? `Your answer, ${words.long}` : 'Your answer'),
    el('div', { class: 'field' },
      el('input', { id: 'number', type: 'text', inputmode: 'decimal', maxlength: 60, autocomplete: 'off', 'aria-describedby': words.other ? 'number-hint number-wrong' : 'number-wrong' }),
      words.short && el('span', { class: 'unit', 'aria-hidden': 'true' }, words.short)),
    el('button', { type: 'submit' }, 'Enter it'),
    el('p', { class: 'wrong', id: 'number-wrong' }),
    words.other && el('p', { class: 'hint', id: 'number-hint' }, `Measured in something else? Write it with its unit, such as ${words.other}.`),
    unsure(act, { 'data-n': 'unsure' }));
  form.querySelector('.unsure b').replaceChildren('↓');
  return group(form);
}

function giveNumber(form, question, act) {
  const input = form.querySelector('input');
  const text = input.value.trim();
  const wrong = form.querySelector('.wrong');
  if (!/[\p{L}\p{N}]/u.test(text)) {
    wrong.textContent = 'Write the number first.';
    input.setAttribute('aria-invalid', 'true');
    input.focus();
    return;
  }
  wrong.textContent = '';
  input.removeAttribute('aria-invalid');
  act.give(form.querySelector('[type="submit"]'), { kind: 'say', text: withUnit(text, question.unit) });
}

/** Things to do where nothing is asked, numbered like answers: [label, does(event)] each. */
export function choices(...list) {
  return group(el('ol', { role: 'list' }, list.map(([label, does], i) =>
    el('li', {}, plate(String(i + 1), label, { 'data-n': i + 1, onclick: does })))), true);
}

/** The one button of an emergency. */
export function safeButton(act) {
  return group(el('button', {
    type: 'button', class: 'answer-key big', 'data-n': '1',
    onclick: (e) => act.give(e.currentTarget, { kind: 'say', text: 'we are safe now' }),
  }, el('span', {}, 'We are safe now')));
}

function group(content, few = false) {
  return el('div', { class: few ? 'answers few' : 'answers', id: 'answers', role: 'group', 'aria-label': 'Answers', tabindex: '-1' }, content);
}

/** Marks the answer given and holds the others until the reply is there. */
export function holdAnswers(button) {
  button.classList.add('given');
  const all = $('answers');
  if (all) all.dataset.sent = '';
}

/** Frees the answers again after a request that was refused. */
export function freeAnswers() {
  const all = $('answers');
  if (!all) return;
  delete all.dataset.sent;
  all.querySelectorAll('.given').forEach((b) => b.classList.remove('given'));
}

/** The answer buttons on the sheet, in order. */
export const answerButtons = () => [...document.querySelectorAll('#answers .answer-key')];
