// The sheet of an emergency: the first thing to do, the steps, and one button.

import { el, list } from './dom.js';
import { size } from './wording.js';
import { holds, sentences } from './spoken.js';
import { safeButton } from './answers.js';

/** The elements of an emergency's sheet. */
export function emergencyParts(reply, act) {
  const first = reply.show.find((text) => reply.say.startsWith(text)) ?? sentences(reply.say)[0];
  const calls = reply.cautions.map((caution) => caution.text); // whom to call is a step here
  const rest = reply.show.filter((text) => text !== first && !calls.includes(text));
  const steps = rest.filter((text) => !isSource(text) && !isClosing(text));
  return [
    el('p', { class: 'alarm' }, 'Emergency', reply.title && el('span', {}, reply.title)),
    el('h2', { class: `ask ${size(first)}`, id: 'sheet-title' }, first),
    calls.map((text) => el('p', { class: 'lead now' }, text)),
    list('ol', 'steps', steps),
    safeButton(act),
    rest.filter(isSource).map((text) => el('p', { class: 'aside' }, text)),
  ];
}

const isSource = (text) => text.startsWith('From:');
const isClosing = (text) => holds(text, 'we are safe'); // the button says it
