// What every text and every time of referrals and follow-up is made from, and the few questions of the roster that they share.
// Next: schedule.ts, news-entries.ts, follow-up-work.ts.

import type { Book } from '../dialog/book.ts';
import type { SayableValue } from '../messages/catalogue.ts';
import type { FollowUp } from '../on-call/follow-up.ts';
import { reminderAt } from '../on-call/quiet-hours.ts';
import type { Roster } from './ports.ts';
import type { TextEntry } from './records.ts';
import type { Speak } from './speak.ts';

export interface FollowUpParts {
  readonly roster: Roster;
  readonly published: { readonly book: Book; readonly followUp: FollowUp };
  readonly speak: Speak;
}

/** Who gets a text, and in which language. */
export interface Recipient {
  readonly phone: string;
  readonly language: string;
}

export function recipient(phone: string, { roster }: Pick<FollowUpParts, 'roster'>): Recipient {
  return { phone, language: roster.find(phone)?.language ?? '' };
}

/** The nurse to turn to about a baby of this facility: who is on call, else its number to ring; null: it is not on the roster. */
export function nurseFor(facility: string, at: number, { roster }: Pick<FollowUpParts, 'roster'>): Recipient | null {
  const [onCall] = roster.onCall(facility, at);
  const phone = onCall?.phone ?? roster.facility(facility)?.nurse;
  return phone === undefined ? null : recipient(phone, { roster });
}

/** What is still to be told of a baby at once; a reminder waits for the end of the night. */
export function whenToText(at: number, facility: string, urgent: boolean, { roster, published }: FollowUpParts): number {
  const zone = roster.facility(facility)?.zone;
  return urgent || zone === undefined ? at : reminderAt(at, zone, published.followUp.quiet);
}

/** Double spaces stand where a value was empty. */
export function textTo(
  to: Recipient,
  about: Pick<TextEntry, 'key' | 'at' | 'urgent' | 'baby'>,
  message: string,
  values: Readonly<Record<string, SayableValue>>,
  { speak }: Pick<FollowUpParts, 'speak'>,
): TextEntry {
  const text = speak(to.language, message, values)
    .replace(/ {2,}/g, ' ')
    .replace(/ ([.,:])(?=\s|$)/g, '$1')
    .trim();
  return { kind: 'text', to: to.phone, text, ...about };
}
