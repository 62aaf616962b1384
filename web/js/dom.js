// Small helpers for making elements. Text is only ever set as text.

export const $ = (id) => document.getElementById(id);

/**
 * Makes an element.
 * @param {string} tag
 * @param {object} [attrs] attributes; a name such as onclick takes a listener;
 *   true sets an empty attribute, false, null and undefined set none
 * @param {...(Node|string|null|undefined|false|Array)} children
 */
export function el(tag, attrs = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attrs)) {
    if (value === false || value === null || value === undefined) continue;
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...children.flat(Infinity).filter((child) => child != null && child !== false && child !== ''));
  return node;
}

/** A list of texts, or null where there are none. */
export function list(tag, className, texts) {
  if (!texts || texts.length === 0) return null;
  return el(tag, { class: className, role: 'list' }, texts.map((text) => el('li', {}, el('span', {}, text))));
}

/** A disclosure with a summary. */
export function fold(summary, children, attrs = {}) {
  return el('details', { class: 'fold', ...attrs }, el('summary', {}, summary), children);
}
