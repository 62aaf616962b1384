// Beside the sheet: what comes next, the plan, and what the notebook has.

import { $, el, fold, list } from './dom.js';
import { figure } from './pictures.js';
import { clock, span } from './times.js';
import { minutes, percent } from './wording.js';

const NEXT = 4; // steps to come that are shown

/** Draws the boards of a reply. act: print(what) */
export function drawBeside(reply, act) {
  drawNext(reply.build);
  drawPlan(reply.plan, act);
  drawNotes(reply.notes ?? []);
}

function board(name, parts) {
  const shown = parts.flat(Infinity).filter(Boolean);
  $(name).hidden = shown.length === 0;
  $(`${name}-body`).replaceChildren(...shown);
}

function drawNext(build) {
  const waiting = (build?.waiting ?? []).filter((w) => w.step !== build.step);
  const next = (build?.next ?? []).slice(0, NEXT);
  board('next', [
    waiting.map((w) => el('p', {}, el('b', {}, `Meanwhile ${w.title} waits`), `, ready at about ${clock(w.mostly)}.`)),
    next.length > 0 && el('ol', { class: 'next-list', role: 'list' }, next.map((step) => el('li', {}, nextStep(step)))),
  ]);
}

function nextStep({ title, minutes: hands, wait, needs }) {
  const line = [el('b', {}, title), el('span', { class: 'soft' }, ` ${span(hands)}${wait.to > 0 ? `, then a wait of ${span(wait)}` : ''}`)];
  return needs.length > 0 ? fold(line, list('ul', 'because', needs)) : el('p', {}, line);
}

const CHANCES = [[0.97, 'nearly certain'], [0.75, 'likely'], [0.4, 'about even'], [0.03, 'unlikely'], [0, 'next to none']];
const inWords = (chance) => CHANCES.find(([from]) => chance >= from)[1];

function drawPlan(plan, act) {
  if (!plan) { board('plan', []); return; }
  const told = plan.chance !== null;
  board('plan', [
    told
      ? el('p', {}, 'Chance to be ready by ', el('b', {}, clock(plan.call)), ': ', el('b', {}, `${inWords(plan.chance)} (${percent(plan.chance)})`))
      : el('p', {}, 'Say when the call is, such as “the call is at seven”.'),
    el('p', {}, 'Ready at about ', el('b', {}, clock(plan.finish)), `, most likely between ${clock(plan.early)} and ${clock(plan.late)}.`),
    told && el('p', {}, plan.slack >= 0 ? `That leaves ${minutes(plan.slack)} to spare.` : `That is ${minutes(-plan.slack)} after the call.`),
    plan.shorter.length > 0 && el('h3', { class: 'part' }, 'Shorter ways'),
    plan.shorter.length > 0 && el('ul', { class: 'because' }, plan.shorter.map((way) => el('li', {}, el('b', {}, way.say), ` ${way.costs} (${percent(way.chance)} then)`))),
    plan.chart.svg && fold('Time chart', figure(plan.chart)),
    el('p', { class: 'row' },
      el('button', { type: 'button', class: 'plain', onclick: () => act.print('plan') }, 'Plan to print'),
      el('button', { type: 'button', class: 'plain', onclick: () => act.print('calendar') }, 'Save for a calendar')),
  ]);
}

function drawNotes(notes) {
  board('notes', [notes.length > 0 && el('ul', { class: 'note-list', role: 'list' }, notes.map((note) => el('li', {},
    el('b', {}, note.label || note.problem), el('span', { class: 'soft' }, ` ${new Date(note.at).toLocaleDateString('en-GB')}`),
    note.outcome && el('p', {}, note.outcome),
    list('ul', 'because', (note.parts ?? []).map((part) => `${part.grams} g ${part.material.replaceAll('-', ' ')}`)))))]);
}
