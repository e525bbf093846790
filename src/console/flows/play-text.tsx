// Plays a conversation on the text that is being written, for the phone beside the editor. Nothing is kept between two posts: all that
// was sent comes along. Next: talk.tsx, what the phone shows; src/console/client/editing/phone.ts.

import { renderPart } from '../page.tsx';
import type { Answer, Visit } from '../route.ts';
import type { PlayedText } from './answers.ts';
import { editedText } from './edited-text.ts';
import { Talk } from './talk.tsx';

const mostMessages = 200;
const longestMessage = 1000;

export async function playText(visit: Visit): Promise<Answer> {
  const { form, parts, say } = visit;
  const edited = await editedText(visit);
  const sent = sentIn(form.sent);
  if (edited === null || sent === null) return { kind: 'json', value: { kind: 'no-file' }, status: 400 };
  const channel = form.channel === 'ussd' ? 'ussd' : 'sms';
  const began = Number(form.at);
  const at = Number.isFinite(began) && began > 0 ? began : parts.now();
  const played = await parts.workshop.play(edited.files, { channel, language: form.language ?? '', sent, at });
  const value: PlayedText =
    played.kind === 'unsound'
      ? { kind: 'unsound', html: renderPart(<p class="problem">{say('phone.unsound', { count: played.diagnostics.length })}</p>) }
      : {
          kind: 'played',
          html: renderPart(<Talk channel={channel} exchanges={played.exchanges} say={say} />),
          at,
          ended: channel === 'ussd' && (played.exchanges.at(-1)?.ends ?? true),
          languages: played.languages,
        };
  return { kind: 'json', value };
}

/** Null: no list of texts, or more than anybody sends. */
function sentIn(json: string | undefined): string[] | null {
  try {
    const sent: unknown = JSON.parse(json ?? '[]');
    const isList = Array.isArray(sent) && sent.length <= mostMessages;
    return isList && sent.every((one) => typeof one === 'string' && one.length <= longestMessage) ? sent : null;
  } catch {
    return null;
  }
}
