// What was shown when the worker was asked last, as a short hash: files may be published between a question and its answer, and a
// digit must never be read as another sign than the one that stood beside it on her screen. Next: answer.ts, proceed.ts.

import { questionFor, regionQuestion } from './ask.ts';
import type { Book } from './book.ts';
import type { Flow, MarkStep, Step } from './flow.ts';
import { isOpen } from './next-step.ts';
import type { Examination, Session } from './session.ts';
import { shortHash } from './short-hash.ts';
import type { Position } from './standing.ts';

/** Regions of one flow, whose questions are always the same; kept as long as the book is. */
interface Regions {
  readonly hashes: ReadonlyMap<Step, string>;
  readonly byHash: ReadonlyMap<string, MarkStep>;
}

const regionsOfBook = new WeakMap<Book, Map<Flow, Regions>>();

function regionsOf(flow: Flow, book: Book): Regions {
  const ofBook = regionsOfBook.get(book) ?? new Map<Flow, Regions>();
  regionsOfBook.set(book, ofBook);
  const kept = ofBook.get(flow);
  if (kept !== undefined) return kept;
  const marking = flow.steps.filter((step) => step.kind === 'mark');
  const hashed = marking.map((step): [MarkStep, string] => [step, hashOf(regionQuestion(step, book))]);
  const times = new Map<string, number>();
  for (const [, hash] of hashed) times.set(hash, (times.get(hash) ?? 0) + 1);
  const regions = {
    hashes: new Map<Step, string>(hashed),
    // A hash that two share names neither.
    byHash: new Map(hashed.filter(([, hash]) => times.get(hash) === 1).map(([step, hash]) => [hash, step])),
  };
  ofBook.set(flow, regions);
  return regions;
}

/** Of a question: its signs, options and fields in their order. Of a result: the files that it was made from. */
export function askedOf({ flow, next, gathered }: Position, book: Book): string {
  if (next.kind === 'result') return hashOf([next.id, book.version]);
  return regionsOf(flow, book).hashes.get(next) ?? hashOf(questionFor(next, gathered, book));
}

function hashOf(shown: unknown): string {
  return shortHash(JSON.stringify(shown));
}

/**
 * The step that a message answers: the region that she was shown, where it is still to be answered and is asked as it was then, also
 * when another question would come first by now; else the one that stands. Null: what stands is not what she saw.
 */
export function answeredStep(session: Pick<Session, 'asked'>, examination: Examination, position: Position, book: Book): Step | null {
  const { asked } = session;
  const shown = asked === undefined ? undefined : regionsOf(position.flow, book).byHash.get(asked);
  if (shown !== undefined && isOpen(shown, examination, position)) return shown;
  return isAsShown(session, position, book) ? position.next : null;
}

/** False: what stands now is not what she saw. A session from before this was kept is taken at its word. */
export function isAsShown({ asked }: Pick<Session, 'asked'>, position: Position, book: Book): boolean {
  return asked === undefined || asked === askedOf(position, book);
}
