// On paper nothing can be unfolded, so the sheet unfolds for printing.

import { $ } from './dom.js';

let opened = [];

export function watchPaper() {
  addEventListener('beforeprint', () => {
    opened = ['paper', 'pictures'].flatMap((id) => [...$(id).querySelectorAll('details:not([open])')]);
    opened.forEach((details) => { details.open = true; });
  });
  addEventListener('afterprint', () => opened.forEach((details) => { details.open = false; }));
}
