// What to do: the first remedy open, the others folded in the order to try.

import { el, fold, list } from './dom.js';
import { minutes, saves } from './wording.js';

/** Whether no remedy fits into the time that is left. */
export const late = (reply) => reply.time != null && !reply.time.fits;

/** The remedies of a reply as a list of elements. */
export function advice(reply) {
  if (late(reply)) return inAHurry(reply);
  const [first, ...others] = reply.remedies;
  const more = others.map((remedy, i) => fold(
    `If that fails (${i + 2}): ${remedy.now[0] ?? causeTitle(reply, remedy)}`,
    [el('div', {}, remedyParts(reply, remedy))],
    { 'data-remedy': remedy.id }));
  return [
    el('div', { 'data-remedy': first.id }, remedyParts(reply, first)),
    more.length > 0 && el('div', { class: 'folds' }, more),
  ].filter(Boolean);
}

// Where no cure fits: what is left to do, and the cures folded for another day.
function inAHurry(reply) {
  const { save, hide, drop } = reply.time;
  const lines = [['To save:', save], ['To hide:', hide], ['To leave out:', drop]].filter(([, text]) => text);
  return [
    el('dl', { class: 'marks hurry' }, lines.map(([name, text]) => mark(name, text))),
    el('div', { class: 'folds' }, reply.remedies.map((remedy) => fold(
      `With more time: ${remedy.say}`,
      [el('div', {}, remedyParts(reply, remedy))],
      { 'data-remedy': remedy.id }))),
  ];
}

function causeTitle(reply, remedy) {
  return reply.causes.find((cause) => cause.id === remedy.cause)?.title ?? '';
}

function remedyParts(reply, remedy) {
  const why = causeTitle(reply, remedy);
  return [
    list('ol', 'steps', remedy.now),
    el('dl', { class: 'marks' },
      mark('Saves the piece:', saves(remedy.saves)),
      mark('Takes:', minutes(remedy.minutes) + (reply.time && !remedy.fits ? ', too long for today' : '')),
      why && mark('Against:', why)),
    remedy.next_time?.length > 0 && el('h3', { class: 'part' }, 'Next time'),
    list('ul', 'later', remedy.next_time),
  ].filter(Boolean);
}

const mark = (name, value) => el('div', {}, el('dt', {}, name), el('dd', {}, value));
