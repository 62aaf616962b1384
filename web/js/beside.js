// Beside the sheet: what comes next, the timers, the plan, and what the notebook
// has.

import { $, el, fold, list } from './dom.js';
import { figure } from './pictures.js';
import { clock, left, now, span } from './times.js';

const NEXT = 4; // steps to come that are shown

/** Draws the boards of a reply. act: say(text), print(what), keep() */
export function drawBeside(reply, act) {
  drawNext(reply.build);
  drawTimers(reply.timers ?? [], act);
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
    next.length > 0 && el('ol', { class: 'next-list', role: 'list' }, next.map((step) => el('li', {},
      el('b', {}, step.title), el('span', { class: 'soft' }, ` ${span(step.minutes)}`),
      step.needs.length > 0 && fold('What it needs', list('ul', 'because', step.needs))))),
  ]);
}

function drawTimers(timers, act) {
  const running = timers.filter((timer) => timer.state !== 'rung');
  board('timers', [
    running.length > 0 && el('ul', { class: 'timer-list', role: 'list' }, running.map((timer) => el('li', {},
      el('span', { class: 'name' }, timer.name),
      el('span', { class: 'left', 'data-due': timer.due, role: 'timer' }, left(timer.due)),
      el('button', { type: 'button', class: 'plain', 'aria-label': `Stop the timer: ${timer.name}`, onclick: () => act.say(`stop the timer ${timer.name}`) }, 'Stop')))),
  ]);
}

const CHANCES = [[0.97, 'nearly certain'], [0.75, 'likely'], [0.4, 'about even'], [0.03, 'unlikely'], [0, 'next to none']];
const inWords = (chance) => CHANCES.find(([from]) => chance >= from)[1];

function drawPlan(plan, act) {
  if (!plan) { board('plan', []); return; }
  const told = plan.chance !== null;
  board('plan', [
    told
      ? el('p', {}, 'Chance to be ready by ', el('b', {}, clock(plan.call)), ': ', el('b', {}, `${inWords(plan.chance)} (${Math.round(plan.chance * 100)} %)`))
      : el('p', {}, 'Say when the call is, such as “the call is at seven”.'),
    el('p', {}, 'Ready at about ', el('b', {}, clock(plan.finish)), `, most likely between ${clock(plan.early)} and ${clock(plan.late)}.`),
    plan.shorter.length > 0 && el('h3', { class: 'part' }, 'Shorter ways'),
    plan.shorter.length > 0 && el('ul', { class: 'because' }, plan.shorter.map((way) => el('li', {}, el('b', {}, way.say), ` ${way.costs} (${Math.round(way.chance * 100)} % then)`))),
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

/** Brings what runs up to date, once a second. */
export function watchTimers() {
  setInterval(() => {
    for (const node of document.querySelectorAll('[data-due]')) node.textContent = left(node.dataset.due);
    for (const bar of document.querySelectorAll('progress[data-since]')) bar.value = Math.max(0, now() - Date.parse(bar.dataset.since));
  }, 1000);
}
