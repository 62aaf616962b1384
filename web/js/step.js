// The step of a build at hand, as the sheet shows it.

import { choices } from './answers.js';
import { el, list } from './dom.js';
import { clock, span, waited } from './times.js';

/** The parts of a step's card, between its heading and the answers. */
export function stepParts(build, act) {
  if (build.state === 'over') return overParts(act);
  if (build.state === 'asking') return [];
  if (build.state === 'waiting' || build.state === 'checking') return [waitMarks(build), look(build)];
  return [
    marks([['Takes:', span(build.minutes) + (build.because ? `, since ${build.because}` : '')]]),
    build.needs.length > 0 && el('h3', { class: 'part' }, 'Have ready first'),
    list('ul', 'later', build.needs),
    build.starts && el('p', { class: 'lead now' }, build.starts),
    list('ol', 'steps', build.do),
    list('ul', 'never', build.never),
    look(build),
  ];
}

const look = (build) => el('p', { class: 'shown' }, el('b', {}, 'Ready when: '), build.look);

function marks(pairs) {
  return el('dl', { class: 'marks' }, pairs.map(([name, value]) => el('div', {}, el('dt', {}, name), el('dd', {}, value))));
}

function waitMarks(build) {
  const wait = build.waiting.find((w) => w.step === build.step);
  if (!wait) return null;
  const since = Date.parse(wait.since);
  const bar = el('progress', { max: String(Date.parse(wait.to) - since), value: '0', 'data-since': wait.since, 'aria-label': 'How much of the wait is over' });
  return [
    marks([['Waits since:', [clock(wait.since), ' (', el('span', { 'data-waits': wait.since }, waited(wait.since)), ')']], ['Ready from:', clock(wait.from)], ['mostly:', clock(wait.mostly)], ['at the latest:', clock(wait.to)]]),
    bar,
  ];
}

const overParts = (act) => choices(
  ['Show what was made, to print or keep', () => act.print('result')],
  ['Clear the bench for the next piece', () => act.clear()]);
