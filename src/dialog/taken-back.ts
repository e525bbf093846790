// A list of signs that is sent again replaces what it said before: a sign that is not in it any more is not there, and is said, so
// that who only meant to add one sees that the other is gone. Called by answer.ts.

import { normalValue } from '../clinical/normal-value.ts';
import type { FindingValue } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import { isOfThisLook } from './examination.ts';
import type { Step } from './flow.ts';
import { signsIn } from './phrases.ts';
import { type Say, say } from './reply.ts';
import type { Examination } from './session.ts';
import type { Position } from './standing.ts';

/** Takes    answered: the steps that the message answered. */
export function takenBack(examination: Examination, answered: readonly Step[], before: Position, after: Position, book: Book): Say[] {
  const isAgain = examination.answers.some(
    (one) => (one.marks?.length ?? 0) > 0 && isOfThisLook(one, examination) && answered.some(({ id }) => id === one.step),
  );
  if (!isAgain) return [];
  const gone = before.gathered.known.entries().flatMap(([finding, value]) => {
    const isGone = isSeen(finding, value, book) && !isSeen(finding, after.gathered.known.get(finding), book);
    return isGone ? [{ finding, value }] : [];
  });
  const signs = signsIn(gone, book);
  return signs.length === 0 ? [] : [say('told.taken-back', { signs })];
}

function isSeen(of: string, value: FindingValue | undefined, book: Book): boolean {
  const normal = normalValue(book.findings.get(of));
  return normal !== undefined && value !== undefined && value !== null && value !== normal;
}
