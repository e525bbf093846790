// What was shown when the worker was asked last, as a short hash: files may be published between a question and its answer, and a
// digit must never be read as another sign than the one that stood beside it on her screen. Next: answer.ts, proceed.ts.

import { questionFor } from './ask.ts';
import type { Book } from './book.ts';
import type { Step } from './flow.ts';
import type { Session } from './session.ts';
import { shortHash } from './short-hash.ts';
import type { Position } from './standing.ts';

/** By step, of those whose question is always the same; kept as long as the book is. */
const ofRegions = new WeakMap<Book, Map<Step, string>>();

/** Of a question: its signs, options and fields in their order. Of a result: the files that it was made from. */
export function askedOf(position: Position, book: Book): string {
  const { next } = position;
  if (next.kind !== 'mark') return hashOf(position, book);
  const known = ofRegions.get(book) ?? new Map<Step, string>();
  ofRegions.set(book, known);
  const asked = known.get(next) ?? hashOf(position, book);
  known.set(next, asked);
  return asked;
}

function hashOf({ next, gathered }: Position, book: Book): string {
  return shortHash(JSON.stringify(next.kind === 'result' ? [next.id, book.version] : questionFor(next, gathered, book)));
}

/** False: what stands now is not what she saw. A session from before this was kept is taken at its word. */
export function isAsShown({ asked }: Pick<Session, 'asked'>, position: Position, book: Book): boolean {
  return asked === undefined || asked === askedOf(position, book);
}
