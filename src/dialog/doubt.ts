// A value that was read and is hard to believe is asked back, "36.9? 1 Yes 2 No", until it is answered. Which values are, the
// readers say (read-answer.ts) and the contradictions of the protocol; that danger comes before it is in answer.ts.

import type { FindingValue } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import type { ReadStep, Step } from './flow.ts';
import { agePhrase, readings } from './phrases.ts';
import type { Turn } from './proceed.ts';
import { type Say, say } from './reply.ts';
import type { Doubt, Session } from './session.ts';
import type { Taken } from './taken.ts';

/** "36.9? 1 Yes 2 No", after what the rest of the message meant: nothing else is asked until it is answered. */
export function askBack(session: Session, { values }: Doubt, book: Book, now: number, page = 0): Turn {
  const question = { title: say('doubt', { values: doubtPhrases(values, book, now) }), options: [], tail: [] };
  return { session: { ...session, page }, reply: { told: session.told, question, page, ends: false }, facts: [] };
}

/** While a number is asked back only that was asked. Null: it is of the question that stands, which was shown before. */
export function stepInDoubt(standing: Step, { step, values }: Doubt): ReadStep | null {
  const isShownBefore = standing.id === step && (standing.kind === 'read' || standing.kind === 'again');
  return isShownBefore ? null : stepReading(Object.keys(values), standing);
}

/** A step that reads these values, in the place of another. */
export function stepReading(values: readonly string[], { onlyIf, opened, shared, seal, id }: Step): ReadStep {
  const fields = values.map((of) => ({ of, optional: false, options: [] }));
  return { kind: 'read', id, onlyIf, opened, shared, seal, fields, notKnown: {} };
}

/** What was asked back before and is answered by nothing in this message. */
export function stillDoubted({ doubt }: Session, { values }: Taken): Doubt['values'] {
  return Object.fromEntries(Object.entries(doubt?.values ?? {}).filter(([of]) => !(of in values)));
}

/** What is asked back, by name: a wording of its own where the question needs one, else as results name it. */
export function doubtPhrases(values: Readonly<Record<string, FindingValue>>, book: Book, now: number): Say[] {
  return Object.entries(values).map(([of, value]) => {
    if (of === 'born' && typeof value === 'number') return say('doubts.born', { age: agePhrase((now / 60_000 - value) / 60) });
    return say(book.has(`doubts.${of}`) ? `doubts.${of}` : `values.${of}`, { value: readings(value) });
  });
}
