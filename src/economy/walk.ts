// Walks one examination from its first message to the end of its result, and counts what it costs: the real dialog and the real
// pages, without stores. How the worker answers is a manner (manners.ts). Pure.

import { afterShown, compose } from '../conversation/compose.ts';
import type { Channel } from '../conversation/ports.ts';
import type { Book, Caller } from '../dialog/book.ts';
import type { Step } from '../dialog/flow.ts';
import type { Standing } from '../dialog/lookup.ts';
import { newSession, type Session } from '../dialog/session.ts';
import { standingOf } from '../dialog/standing.ts';
import { takeTurn } from '../dialog/turn.ts';
import type { Catalogues } from '../messages/catalogue.ts';
import type { ScreenLimit } from '../messages/screens.ts';
import { measure } from '../messages/segments.ts';

export interface Manner {
  /** What is sent first, after the word that begins an examination; by USSD, after the dial. Empty: the word alone. */
  readonly opening: string;
  readonly answer: (step: Step, standing: Standing) => string;
}

export interface Phone {
  readonly book: Book;
  readonly catalogues: Catalogues;
  readonly language: string;
  readonly channel: Channel;
  readonly screen: ScreenLimit;
  /** Epoch milliseconds. */
  readonly now: number;
}

/** Of one examination; what nurses and later reminders cost is not in it. */
export interface Spent {
  /** Messages each way: texts, or screens of a call. */
  readonly exchanges: number;
  readonly segmentsIn: number;
  readonly segmentsOut: number;
  /** Every character is a key, and what is sent takes one more. Common practice, no source. */
  readonly keys: number;
  readonly urgency: string;
  /** What was sent and what came back, in order. A dial is sent as nothing. */
  readonly exchanged: readonly { readonly sent: string; readonly reply: string }[];
}

/** More than any examination takes: one that does not end is a fault of the flow. */
const mostExchanges = 2000;
const yes = '1';
const nextPage = '1';
const turnPage = '99';
const finish = '2';

/** Errors: the examination comes to no result, or the manner's answers are not understood. */
export function walk(manner: Manner, { book, catalogues, language, channel, screen, now }: Phone): Spent {
  const caller: Caller = {
    ...{ phone: '', facility: '', facilityName: '', zone: 'UTC', nurse: '', language, mayInject: false },
  };
  let session: Session = { ...newSession, cautioned: true };
  const exchanged: { sent: string; reply: string }[] = [];
  const send = (text: string, dialled = false): void => {
    const turn = takeTurn(session, { text, caller, dialled }, book, now + 1000 * exchanged.length);
    const said = compose(turn.reply, channel, { catalogues, language, screen });
    session = afterShown(turn.session, said.shown);
    exchanged.push({ sent: text, reply: said.text });
  };
  const begins = [...(book.languages.find(({ tag }) => tag === language)?.keywords ?? [])].find(([, command]) => command === 'new-baby');
  if (channel === 'ussd') {
    send('', true);
    if (manner.opening !== '') send(manner.opening);
  } else send(`${(begins?.[0] ?? '').toUpperCase()} ${manner.opening}`.trim());
  let urgency = '';
  for (;;) {
    if (exchanged.length > mostExchanges)
      throw new Error(
        `An examination in ${language} by ${channel} does not come to its end. The last reply was: ${exchanged.at(-1)?.reply}`,
      );
    const { open } = session;
    if (open === null)
      throw new Error(`An examination in ${language} by ${channel} was left. The last reply was: ${exchanged.at(-1)?.reply}`);
    const standing = standingOf(open, caller, book, now + 1000 * exchanged.length);
    const { next } = standing;
    urgency = standing.interpretation.urgency;
    if (session.doubt !== undefined) send(yes);
    else if (next.kind === 'result') {
      if (session.hasMore === true) send(nextPage);
      else if (open.finishedAt !== undefined) break;
      else send(finish);
    } else if (session.hasMore === true) {
      send(turnPage);
    } else send(manner.answer(next, standing));
  }
  return { ...countOf(exchanged, channel), urgency, exchanged };
}

function countOf(exchanged: Spent['exchanged'], channel: Channel): Omit<Spent, 'urgency' | 'exchanged'> {
  const sum = (of: (one: Spent['exchanged'][number]) => number): number => exchanged.reduce((total, one) => total + of(one), 0);
  const segments = (text: string): number => (channel === 'sms' ? measure(text).segments : 0);
  return {
    exchanges: exchanged.length,
    segmentsIn: sum(({ sent }) => segments(sent)),
    segmentsOut: sum(({ reply }) => segments(reply)),
    keys: sum(({ sent }) => (sent === '' ? 0 : [...sent].length + 1)),
  };
}
