// The pictures that go with the sums, each with the table behind it.

import { $, el, fold } from './dom.js';

// What the server draws with. Anything else in a picture is not taken over.
const SHAPES = new Set(['svg', 'title', 'desc', 'defs', 'pattern', 'rect', 'line', 'path', 'circle', 'text']);
const BARRED = /^(?:on|style$|(?:xlink:)?href$)/i;

/** Draws the pictures of a reply, if it has any. */
export function drawPictures(pictures) {
  $('pictures').hidden = !pictures?.length;
  $('pictures-body').replaceChildren(...(pictures ?? []).map(figure));
}

export function figure(picture) {
  const drawn = drawing(picture.svg);
  return el('figure', { class: 'picture', 'data-picture': picture.id },
    el('figcaption', {}, picture.title),
    drawn ?? el('p', {}, picture.description),
    picture.rows?.length > 0 && fold('The numbers behind it', table(picture)));
}

/** The drawing as an element of this page, or null where it can't be one. */
export function drawing(svg) {
  const { documentElement: root } = new DOMParser().parseFromString(svg, 'image/svg+xml');
  const plain = [root, ...root.querySelectorAll('*')].every((node) =>
    SHAPES.has(node.localName) && [...node.attributes].every(({ name }) => !BARRED.test(name)));
  if (!plain || root.localName !== 'svg') return null;
  nameApart(root);
  return document.adoptNode(root);
}

let drawn = 0;

// The same drawing may stand on the page twice, and one may be hidden: each goes
// by names of its own.
function nameApart(root) {
  drawn += 1;
  for (const node of [root, ...root.querySelectorAll('*')]) {
    for (const attribute of node.attributes) {
      if (attribute.name === 'id') attribute.value += `-${drawn}`;
      else if (attribute.name === 'aria-labelledby') attribute.value = attribute.value.replace(/\S+/g, `$&-${drawn}`);
      else attribute.value = attribute.value.replace(/^url\(#([^)]+)\)$/, `url(#$1-${drawn})`);
    }
  }
}

function table({ title, columns, rows }) {
  return el('div', { class: 'numbers', role: 'region', tabindex: '0', 'aria-label': `The numbers behind: ${title}` },
    el('table', {},
      el('thead', {}, el('tr', {}, columns.map((text) => el('th', { scope: 'col' }, text)))),
      el('tbody', {}, rows.map(([first, ...others]) => el('tr', {},
        el('th', { scope: 'row' }, first),
        others.map((text) => el('td', {}, text)))))));
}
