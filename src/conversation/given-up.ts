// Counts where examinations are given up: looks into the session of each that was begun and has not ended. Nobody is told; what is
// urgent of it went to a nurse when it was found. Next: src/register/begun.ts.

import { leftAt } from '../dialog/begun.ts';
import type { Book } from '../dialog/book.ts';
import type { Register, Roster, Sessions } from './ports.ts';
import type { BegunLook, BegunRecord } from './records.ts';
import { readSession } from './stored-session.ts';

export interface GivenUpParts {
  readonly register: Pick<Register, 'begunDue' | 'settleBegun'>;
  readonly sessions: Pick<Sessions, 'open' | 'release'>;
  readonly roster: Pick<Roster, 'find'>;
  readonly book: Book;
  readonly now: () => number;
}

const hour = 3_600_000;
/** An examination on whose phone nothing was heard for so long is given up; so is one that was set aside and not taken up again. */
export const givenUpAfter = 24 * hour;
/** However much is heard on that phone. */
const atLast = 72 * hour;
const busyPause = 60_000;
const batch = 50;

/** Returns  how many were looked at. */
export async function noteGivenUp({ register, sessions, roster, book, now }: GivenUpParts): Promise<number> {
  const begun = await register.begunDue(now(), batch);
  for (const one of begun) await register.settleBegun(one.key, await look(one));
  return begun.length;

  async function look({ key, examination, worker, at }: BegunRecord): Promise<BegunLook> {
    const opened = await sessions.open(worker, `look:${key}:${now()}`, now());
    // A text of hers is being answered; so is she.
    if (opened.kind !== 'held') return { kind: 'again', at: now() + busyPause };
    await sessions.release(opened.held);
    const { session } = readSession(opened.held.session);
    const left = leftAt(session, examination, { mayInject: roster.find(worker)?.mayInject ?? false }, book);
    const heardUntil = session.lastMessageAt + givenUpAfter;
    if (left?.isInHand === true && now() < Math.min(heardUntil, at + atLast))
      return { kind: 'again', at: Math.min(heardUntil, at + atLast) };
    return { kind: 'given-up', step: left?.step ?? null };
  }
}
