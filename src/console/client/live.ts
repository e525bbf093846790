// Keeps a part of the page as it stands: an element with `data-live` is fetched again from that address every few seconds and put in
// place. What somebody has typed in it stays, and so does the place of the keyboard. Says when no answer comes, and to who does not see
// the page what has come up in it: each element with `data-announce` by its heading. Without this script the page is loaded anew by hand.

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
      if (Date.now() - typedAt >= pauseMilliseconds) {
        const before = new Set(announced(part).map(({ id }) => id));
        putInPlace(part, html);
        const come = announced(part).filter(({ id }) => !before.has(id));
        if (come.length > 0) tell([part.dataset.new, ...come.map(headingOf)].join(' '));
      }
      say('');
    } catch {
      const minutes = Math.floor((Date.now() - answeredAt) / 60_000);
      if (minutes > 0) say((part.dataset.offline ?? '').replace('#', String(minutes)));
    }
  };
  const say = statusAfter(part, 'muted');
  const tell = statusAfter(part, 'heard');
  setInterval(() => void look(), pauseMilliseconds);
}

function statusAfter(part: HTMLElement, look: 'muted' | 'heard'): (text: string) => void {
  const said = document.createElement('p');
  said.setAttribute('role', 'status');
  said.className = look;
  part.after(said);
  return (text) => {
    if (said.textContent !== text) said.textContent = text;
  };
}

const announced = (part: HTMLElement): HTMLElement[] => [...part.querySelectorAll<HTMLElement>('[data-announce]')];

function headingOf(one: HTMLElement): string {
  return one.querySelector('h3')?.textContent ?? '';
}
