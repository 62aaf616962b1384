// Moments and spans as people read them, by the server's clock.

import { memory } from './memory.js';
import { count, minutes } from './wording.js';

let ahead = memory.ahead; // ms that the server's clock is ahead of this one

/**
 * Takes the server's clock from a reply. One that was made just now tells it; an
 * earlier one, shown again, only that it is later by now.
 */
export function setClock(at, fresh) {
  const time = Date.parse(at);
  if (!(time > 0)) return; // of a talk just opened
  const seen = time - Date.now();
  ahead = fresh ? seen : Math.max(ahead, seen);
  if (fresh) memory.ahead = ahead;
}

/** The server's time in ms. */
export const now = () => Date.now() + ahead;

const two = (n) => String(n).padStart(2, '0');

/** The time of a moment, with the day where it is not today. */
export function clock(text) {
  const t = new Date(text);
  const time = `${two(t.getHours())}:${two(t.getMinutes())}`;
  if (t.toDateString() === new Date(now()).toDateString()) return time;
  return `${t.toLocaleDateString('en-GB', { weekday: 'short', day: 'numeric', month: 'short' })}, ${time}`;
}

/** A range of minutes. */
export function span({ from, to }) {
  if (to < 180) return from === to ? `${to} minutes` : `${from} to ${to} minutes`;
  const hours = (m) => count(Math.round(m / 30) / 2);
  return from === to ? `${hours(to)} hours` : `${hours(from)} to ${hours(to)} hours`;
}

/** How long something has waited: "about 12 minutes". */
export const waited = (since) => minutes(Math.max(0, now() - Date.parse(since)) / 60000);

/** What is left until a moment: "12:05", or "3 min late". */
export function left(text) {
  const ms = Date.parse(text) - now();
  if (ms < -60000) return `${Math.round(-ms / 60000)} min late`;
  const s = Math.max(0, Math.ceil(ms / 1000));
  if (s >= 36 * 3600) return `${Math.round(s / 3600)} hours`;
  return s >= 3600 ? `${Math.floor(s / 3600)}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}` : `${Math.floor(s / 60)}:${two(s % 60)}`;
}
