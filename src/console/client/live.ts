// Keeps a part of the page as it stands: an element with `data-live` is fetched again from that address every few seconds and put in
// place, unless somebody is typing in it. Says when no answer comes. Without this script the page is loaded anew by hand.

const pauseMilliseconds = 8_000;

for (const part of document.querySelectorAll<HTMLElement>('[data-live]')) keepLive(part);

function keepLive(part: HTMLElement): void {
  let answeredAt = Date.now();
  const look = async (): Promise<void> => {
    const isTyping = part.contains(document.activeElement) && document.activeElement?.matches('input, textarea, select');
    if (document.hidden || isTyping) return;
    try {
      const response = await fetch(part.dataset.live ?? '', { headers: { accept: 'text/html' } });
      if (response.redirected || !response.ok) throw new Error(String(response.status));
      const html = await response.text();
      answeredAt = Date.now();
      if (html !== part.innerHTML) part.innerHTML = html;
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
