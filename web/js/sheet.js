// The job sheet: one reply, drawn whole.

import { $, el, fold } from './dom.js';
import { size } from './wording.js';
import { holds, sentences, unsaid } from './spoken.js';
import { answers, choices, numberForm } from './answers.js';
import { advice, late } from './advice.js';
import { allCautions, standingCautions } from './cautions.js';
import { emergencyParts } from './emergency.js';
import { stepParts } from './step.js';

const STAMPS = { listening: 'Ready', choosing: 'Which one?', asking: 'Question', advising: 'Do this', building: 'Build', closed: 'Put away' };

/**
 * Draws a reply on the sheet.
 * @param {object} reply as the server sends it
 * @param {number} turn
 * @param {object} act give(button, request), clear()
 */
export function drawSheet(reply, turn, act) {
  document.body.dataset.phase = reply.phase;
  document.body.dataset.turn = turn;
  const parts = reply.phase === 'emergency' ? emergencyParts(reply, act) : plainParts(reply, turn, act);
  $('paper').replaceChildren(...parts.flat(Infinity).filter(Boolean));
  const sheet = $('sheet');
  sheet.classList.remove('fresh');
  void sheet.offsetWidth; // lets the movement start afresh
  sheet.classList.add('fresh');
}

function plainParts(reply, turn, act) {
  const { question } = reply;
  const advising = reply.phase === 'advising' && reply.remedies.length > 0;
  const { heading, lead, now, more } = texts(reply, advising);
  return [
    head(reply, turn, heading),
    ['asking', 'building'].includes(reply.phase) ? standingCautions(reply.cautions) : allCautions(reply.cautions),
    reply.changed && el('p', { class: 'change' }, reply.changed),
    lead && el('p', { class: `lead ${size(lead)}` }, lead),
    now.map((text) => el('p', { class: 'lead now' }, text)),
    el('h2', { class: `ask ${size(heading)}`, id: 'sheet-title' }, heading),
    advising && advice(reply),
    reply.phase === 'building' && !asksAside(reply) && stepParts(reply.build, act),
    (!question || advising) && paragraphs(more),
    reply.phase === 'listening' && !question && choices(['Build a piece with me, step by step', (e) => act.give(e.currentTarget, { kind: 'say', text: 'guide me' })]),
    question && question.text !== heading && reply.phase !== 'building' && el('h3', { class: 'part closing' }, question.text),
    question && (question.kind === 'number' ? numberForm(question, act) : answers(question, act)),
    question && !advising && paragraphs(more),
    reply.heard && el('p', { class: 'aside' }, 'Understood: ', el('b', {}, reply.heard)),
    question && folds(question),
    reply.phase === 'closed' && el('button', { type: 'button', class: 'answer-key big', onclick: act.clear }, el('span', {}, 'Clear the bench for the next job')),
  ];
}

/**
 * Sorts the texts of a reply: the heading, what is spoken before it, what is
 * spoken because it cannot wait, and the rest.
 */
function texts(reply, advising) {
  const { question, say, show } = reply;
  const elsewhere = [reply.changed, question?.text, ...reply.cautions.map((caution) => caution.text)];
  if (reply.phase === 'building') return stepTexts(reply, unsaid(say, elsewhere, question?.options));
  if (advising) return adviceTexts(reply, unsaid(say, elsewhere));
  if (!question) {
    const heading = rung(reply) ? 'Tell me what you see going wrong, in your own words.' : unsaid(say, elsewhere) || say;
    return { heading, lead: '', now: [], more: show.filter((text) => !holds(heading, text)) };
  }
  const now = show.filter((text) => holds(say, text));
  const lead = unsaid(say, [...elsewhere, ...now], question.options);
  return { heading: question.text, lead, now, more: show.filter((text) => !now.includes(text)) };
}

// Advice is spoken as what is likeliest and where it began, what to do, and what
// that takes and saves, which stands under the steps as well. What to do is the
// heading; where no cure fits into the time left, that is.
function adviceTexts(reply, spoken) {
  const [first] = reply.remedies;
  const heading = late(reply) ? 'No cure fits into the time left.' : first.say || first.now[0];
  const tells = (sentence) => reply.causes.some((cause) => holds(sentence, cause.title) || cause.began && holds(sentence, cause.began));
  const shown = [heading, ...(late(reply) ? [reply.time.save, reply.time.hide, reply.time.drop] : [])];
  const all = sentences(spoken).filter((sentence) => !shown.some((text) => text && holds(text, sentence)));
  const more = [...all.filter((sentence) => !tells(sentence) && !/\bsaved?s?\b/.test(sentence)), ...reply.show];
  return { heading, lead: all.filter(tells).join(' '), now: [], more };
}

// What a timer says stands in the strip over the sheet.
const rung = (reply) => reply.timers?.[0]?.state === 'rung';

// A question in between puts the step's card aside; whether the step is ready is
// asked on the card.
const asksAside = ({ question, build }) => question && question.fact !== 'step_done' && build.state !== 'checking';

// Of a step the card shows more than is spoken, so only what is news stands over
// it: what became of the last one, what was told, the answer to a question.
function stepTexts(reply, spoken) {
  const { build, question } = reply;
  const asks = question && question.fact !== 'step_done';
  const card = [build.title, build.look, build.starts, ...build.do, ...build.never, `Have ready ${build.needs.join(' ')}`];
  const isCard = (sentence) => /^Step \d+ of \d+/.test(sentence) || sentence.startsWith('Have ready') || sentence.startsWith('First:')
    || sentence.startsWith('Say how') || build.state === 'waiting' && sentence.includes(': ready at about ') || card.some((text) => text && holds(text, sentence));
  const heading = asks ? question.text : build.title || 'All steps are done';
  const lead = rung(reply) ? '' : sentences(spoken).filter((sentence) => !isCard(sentence)).join(' ');
  return { heading, lead, now: [], more: reply.show };
}

const paragraphs = (texts) => texts.map((text) => el('p', { class: 'shown' }, text));

function head(reply, turn, heading) {
  const stamp = reply.question?.fact === 'emergency' ? 'Safety first' : STAMPS[reply.phase] ?? '';
  const title = [stamp, heading].includes(reply.title) ? '' : reply.title;
  return el('div', { class: 'head' },
    el('p', { class: 'stamp' }, stamp),
    el('p', { class: 'job' }, title),
    number(reply, turn));
}

function number({ build, phase }, turn) {
  if (phase === 'building' && build.step) return el('p', { class: 'number' }, `Step ${build.n} of ${build.of}`);
  return turn > 0 && el('p', { class: 'number' }, `Sheet ${turn}`);
}

function folds(question) {
  return el('div', { class: 'folds' },
    question.how_to_check && fold('How to find out', el('p', {}, question.how_to_check)),
    question.why && fold('Why I ask', el('p', {}, question.why), { 'data-why': true }));
}
