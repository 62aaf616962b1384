// The state of the link, in words.

import { $ } from './dom.js';

const WORDS = {
  connecting: 'Connecting',
  linked: 'Connected',
  cut: 'Cut off; trying again. What you say is kept and sent then.',
  offline: 'No network; what you say is kept. In an emergency do not wait: call your local number.',
  hidden: 'Resting while this page is hidden',
  stopped: 'The server closed the link.',
};

export function showState(state, reason) {
  const line = $('link');
  // a quick reconnect is not worth two announcements
  if (state === 'connecting' && ['cut', 'offline'].includes(line.dataset.state)) return;
  line.dataset.state = state;
  line.textContent = reason ? `${WORDS[state]} ${reason}` : WORDS[state];
  $('retry').hidden = !['cut', 'offline', 'stopped'].includes(state);
}
