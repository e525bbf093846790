// A session in a flow that is published no more: what was answered in it cannot be read, and is let go, with a word to the worker.
// Called by turn.ts.

import type { Book } from './book.ts';
import { isReadable } from './known-baby.ts';
import { settled } from './proceed.ts';
import type { Session } from './session.ts';

export interface Kept {
  /** Holds only examinations whose flows are published. */
  readonly session: Session;
  /** The examination in hand is gone: what was sent is no answer to anything. */
  readonly isInterrupted: boolean;
}

export function onlyPublished(session: Session, book: Book): Kept {
  const { open, last, aside } = session;
  const isInterrupted = open !== null && !isReadable(open, book);
  const isLastGone = last !== undefined && !isReadable(last, book);
  const kept = aside.every((one) => isReadable(one, book)) ? aside : aside.filter((one) => isReadable(one, book));
  if (!isInterrupted && !isLastGone && kept === aside) return { session, isInterrupted: false };
  const { last: _last, ...rest } = isInterrupted ? settled(session) : session;
  return {
    session: { ...rest, open: isInterrupted ? null : open, aside: kept, ...(last === undefined || isLastGone ? {} : { last }) },
    isInterrupted,
  };
}
