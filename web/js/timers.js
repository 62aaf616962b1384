// The timers beside the sheet: those that run, each with a way to stop it, and a
// form to set another.

import { $, el } from './dom.js';
import { left, now, waited } from './times.js';

/** Draws the timers of a reply; the board is there while one runs or a build is on. */
export function drawTimers({ timers, build }, act) {
  const running = (timers ?? []).filter((timer) => timer.state !== 'rung');
  $('timers').hidden = running.length === 0 && !build;
  $('timers-body').replaceChildren(...(running.length > 0 ? [el('ul', { class: 'timer-list', role: 'list' }, running.map((timer) => row(timer, act)))] : []));
}

function row({ name, due }, act) {
  return el('li', {},
    el('span', { class: 'name' }, name),
    el('span', { class: 'left', 'data-due': due, role: 'timer' }, left(due)),
    el('button', { type: 'button', class: 'plain', 'aria-label': `Stop the timer: ${name}`, onclick: () => act.say(`stop the timer for ${name}`) }, 'Stop'));
}

/** Sets up the form, and keeps what counts down or fills up moving. */
export function watchTimers(act) {
  $('timer-form').addEventListener('submit', (e) => {
    e.preventDefault();
    setTimer(act);
  });
  setInterval(() => {
    for (const node of document.querySelectorAll('[data-due]')) node.textContent = left(node.dataset.due);
    for (const node of document.querySelectorAll('[data-waits]')) node.textContent = waited(node.dataset.waits);
    for (const bar of document.querySelectorAll('progress[data-since]')) bar.value = Math.max(0, now() - Date.parse(bar.dataset.since));
  }, 1000);
}

function setTimer(act) {
  const [minutes, what] = [$('timer-minutes'), $('timer-what')];
  const wanted = Number(minutes.value.trim().replace(',', '.'));
  const wrong = !(wanted > 0);
  $('timer-wrong').textContent = wrong ? 'Write how many minutes, such as 20.' : '';
  minutes.toggleAttribute('aria-invalid', wrong);
  minutes.focus();
  if (wrong) return;
  act.say(`set a timer for ${wanted} minutes${what.value.trim() && ` to ${what.value.trim()}`}`);
  minutes.value = what.value = '';
}
