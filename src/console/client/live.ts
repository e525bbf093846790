// Keeps a part of the page as it stands: an element with `data-live` is fetched again from that address every few seconds and put in
// place. What somebody has typed in it stays, and so does the place of the keyboard. Says when no answer comes. Without this script the
// page is loaded anew by hand.

import { putInPlace } from './live/put-in-place.ts';

const pauseMilliseconds = 8_000;

for (const part of document.querySelectorAll<HTMLElement>('[data-live]')) keepLive(part);

function keepLive(part: HTMLElement): void {
  let answeredAt = Date.now();
  let typedAt = 0;
  part.addEventListener('input', () => {
    typedAt = Date.now();
  });
  const look = async (): Promise<void> => {
    if (document.hidden) return;
    try {
      const response = await fetch(part.dataset.live ?? '', { headers: { accept: 'text/html' } });
      if (response.redirected || !response.ok) throw new Error(String(response.status));
      const html = await response.text();
      answeredAt = Date.now();
      // A word that is being put together by a phone's keyboard is not torn apart; the next look is soon.
      if (Date.now() - typedAt >= pauseMilliseconds) putInPlace(part, html);
      say('');
    } catch {
      const minutes = Math.floor((Date.now() - answeredAt) / 60_000);
      if (minutes > 0) say((part.dataset.offline ?? '').replace('#', String(minutes)));
    }
  };
  const said = document.createElement('p');
  said.setAttribute('role', 'status');
  said.className = 'muted';
  part.after(said);
  const say = (text: string): void => {
    if (said.textContent !== text) said.textContent = text;
  };
  setInterval(() => void look(), pauseMilliseconds);
}
