// Where an examination stands in a session, so that those which are given up can be counted by the step at which they were.
// Called by turn.ts and src/conversation/given-up.ts.

import type { Book, Caller } from './book.ts';
import type { BegunFact } from './facts.ts';
import { isReadable } from './known-baby.ts';
import type { Examination, Session } from './session.ts';
import { standingOf } from './standing.ts';

/** Of what this turn began, unless it ended it as well. A result that is corrected was begun before. */
export function begunFacts(before: Session, after: Session, { phone, facility }: Caller, now: number): BegunFact[] {
  const { open } = after;
  if (open === null || open.finishedAt !== undefined) return [];
  const known = [before.open, before.last, ...before.aside].some(
    (one) => one?.id === open.id && one.earlier.length === open.earlier.length && one.flow === open.flow,
  );
  if (known) return [];
  const name = `${open.id}:${open.revision}`;
  return [{ kind: 'begun', key: `begun:${name}`, examination: `examination:${name}`, flow: open.flow, worker: phone, facility, at: now }];
}

export interface Left {
  /** Id of the step that is asked; null: its flow is published no more. */
  readonly step: string | null;
  /** It is the one in hand, and not set aside. */
  readonly isInHand: boolean;
}

/** Null: the session has it no more, or it has ended. Takes  key: of the examination, as in BegunFact. */
export function leftAt(session: Session, key: string, caller: Pick<Caller, 'mayInject'>, book: Book): Left | null {
  const nameOf = ({ id, revision }: Examination): string => `examination:${id}:${revision}`;
  const found = [session.open, ...session.aside].find((one) => one !== null && one.finishedAt === undefined && nameOf(one) === key);
  if (found === undefined || found === null) return null;
  const step = isReadable(found, book) ? standingOf(found, caller, book, session.lastMessageAt).next.id : null;
  return { step, isInHand: found === session.open };
}
