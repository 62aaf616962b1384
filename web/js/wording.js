// Numbers, units and short sentences as people read them.

/** A count of measures, to the nearest quarter: 2.5 is "2½". */
export function count(x) {
  const quarters = Math.round(x * 4);
  const whole = Math.floor(quarters / 4);
  const part = ['', '¼', '½', '¾'][quarters % 4];
  return whole > 0 || part === '' ? `${whole}${part}` : part;
}

/** Grams or millilitres. The server rounds to halves; what is left is too little to weigh. */
export function amount(x) {
  return x > 0 ? String(x) : 'under ½';
}

/** A share of belief, 0 to 1, in words that fit beside a bar. */
export function percent(share) {
  const whole = Math.round(share * 100);
  if (whole < 1) return 'under 1 %';
  return whole > 99 ? 'over 99 %' : `${whole} %`;
}

/** Minutes of work. */
export function minutes(x) {
  if (x < 1) return 'under a minute';
  const whole = Math.round(x);
  if (whole < 100) return `about ${whole} ${whole === 1 ? 'minute' : 'minutes'}`;
  const hours = Math.round(x / 30) / 2;
  if (hours < 36) return `about ${count(hours)} ${hours === 1 ? 'hour' : 'hours'}`;
  const days = Math.round(x / 720) / 2;
  return `about ${count(days)} ${days === 1 ? 'day' : 'days'}`;
}

const SAVES = { yes: 'yes', partly: 'in part', no: 'no' };
export const saves = (word) => SAVES[word] ?? word;

const LEVELS = { stop: 'Stop', care: 'Take care', note: 'Note' };
export const level = (word) => LEVELS[word] ?? 'Note';

const UNITS = {
  mm: { short: 'mm', long: 'in millimetres', spoken: 'mm', other: '2 inches' },
  g: { short: 'g', long: 'in grams', spoken: 'g', other: '3 ounces' },
  ml: { short: 'ml', long: 'in millilitres', spoken: 'ml', other: 'half a cup' },
  min: { short: 'min', long: 'in minutes', spoken: 'minutes', other: '2 hours' },
  C: { short: '°C', long: 'in degrees Celsius', spoken: 'C', other: '70 F' },
  '%': { short: '%', long: 'in percent', spoken: 'percent', other: '' },
  cm2: { short: 'cm²', long: 'in square centimetres', spoken: 'cm2', other: '' },
  s: { short: 's', long: 'in seconds', spoken: 'seconds', other: '2 minutes' },
  W: { short: 'W', long: 'in watts', spoken: 'W', other: '' },
};

/** How a base unit is written, spelt out, sent, and an example in another unit. */
export function unit(base) {
  return UNITS[base] ?? { short: base, long: base, spoken: base, other: '' };
}

const figures = (x) => String(x).replace('-', '−');

/** A number with its unit: "−3 %". */
export function number(x, base) {
  return `${figures(x)} ${unit(base).short}`.trim();
}

/** From one number to another: "110–130 g", "−3 to 2 %". */
export function range(low, high, base) {
  const between = low < 0 ? ' to ' : '–';
  return `${figures(low)}${between}${number(high, base)}`;
}

/** Adds the unit to a bare number; text that brings its own is left alone. */
export function withUnit(text, base) {
  const bare = /^[\d\s.,/¼⅓½⅔¾-]+$/.test(text);
  return bare && base ? `${text} ${unit(base).spoken}` : text;
}

/** Class for the size that a text can have on the sheet. */
export function size(text) {
  if (text.length <= 64) return 'short';
  return text.length <= 130 ? 'middling' : 'long';
}
