// The phone beside the editor: keeps what was sent, and has all of it played again on the text as it stands, after each message and
// after each edit. What was sent stays while files are opened one after the other. Next: src/console/flows/play-text.tsx.

import type { PlayedText } from '../../flows/answers.ts';
import { oneAtATime, post } from './post.ts';

interface Sent {
  channel: 'sms' | 'ussd';
  language: string;
  sent: string[];
  /** Of the first message, as the server said; empty before it. */
  at: string;
}

interface Given {
  readonly phone: HTMLElement;
  readonly file: string;
  readonly text: () => string;
  /** Said when no answer comes. */
  readonly failed: string;
}

const kept = 'pipit-phone';
const dial = '';

/** What has the conversation played again. */
export function openPhone({ phone, file, text, failed }: Given): () => void {
  const part = <E extends HTMLElement>(name: string): E => phone.querySelector<E>(`#phone-${name}`) as E;
  const [channel, language] = [part<HTMLSelectElement>('channel'), part<HTMLSelectElement>('language')];
  const [input, talk, state, dialAgain] = [part<HTMLInputElement>('input'), part('talk'), part('state'), part<HTMLButtonElement>('dial')];
  const sendButton = part('form').querySelector('button') as HTMLButtonElement;
  const sent: Sent = { channel: 'sms', language: language.value, sent: [], at: '', ...JSON.parse(sessionStorage.getItem(kept) ?? '{}') };

  const play = oneAtATime(async () => {
    try {
      const { channel: over, language: spoken, at } = sent;
      show(
        await post(phone.dataset.play ?? '', { file, text: text(), channel: over, language: spoken, at, sent: JSON.stringify(sent.sent) }),
      );
    } catch {
      stale(failed);
    }
  });
  const show = (played: PlayedText): void => {
    if (played.kind === 'unsound') {
      stale('', played.html);
      return;
    }
    state.textContent = '';
    talk.classList.remove('is-stale');
    talk.innerHTML = played.html;
    talk.scrollTop = talk.scrollHeight;
    sent.at = sent.sent.length === 0 ? '' : String(played.at);
    input.disabled = sendButton.disabled = played.ended;
    offer(played.languages);
    keep();
  };
  const stale = (words: string, html?: string): void => {
    talk.classList.add('is-stale');
    if (html === undefined) state.textContent = words;
    else state.innerHTML = html;
  };
  const offer = (languages: readonly { readonly tag: string; readonly name: string }[]): void => {
    if (languages.map(({ tag }) => tag).join() === [...language.options].map(({ value }) => value).join()) return;
    language.replaceChildren(...languages.map(({ tag, name }) => new Option(name, tag)));
    language.value = sent.language;
  };
  const keep = (): void => sessionStorage.setItem(kept, JSON.stringify(sent));
  const again = (): void => {
    Object.assign(sent, { sent: sent.channel === 'ussd' ? [dial] : [], at: '' });
    play();
  };

  channel.value = sent.channel;
  language.value = sent.language;
  dialAgain.hidden = sent.channel === 'sms';
  channel.addEventListener('change', () => {
    sent.channel = channel.value === 'ussd' ? 'ussd' : 'sms';
    const typed = sent.sent.filter((one) => one !== dial);
    sent.sent = sent.channel === 'ussd' ? [dial, ...typed] : typed;
    dialAgain.hidden = sent.channel === 'sms';
    play();
  });
  language.addEventListener('change', () => {
    sent.language = language.value;
    play();
  });
  part('form').addEventListener('submit', (event) => {
    event.preventDefault();
    sent.sent.push(input.value);
    input.value = '';
    play();
  });
  dialAgain.addEventListener('click', () => {
    sent.sent.push(dial);
    play();
  });
  part('again').addEventListener('click', again);
  phone.hidden = false;
  return play;
}
