// Reads one message as the answer to one step. Labelled values (T36.8 R44) are taken wherever they stand and whatever is
// being asked; the rest is for the step. What can be read counts even when another part cannot.
// Next: read-in-order.ts, read-field.ts, readings/.

import type { FindingValue } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import type { MarkStep, ReadField, Step } from './flow.ts';
import { conflictOf } from './gather.ts';
import { type Context, readField, sexes } from './read-field.ts';
import { readInOrder } from './read-in-order.ts';
import { takeLabelled } from './readings/labelled.ts';
import { readMarks } from './readings/marks.ts';
import { refusal, type Words } from './readings/words.ts';
import { bothTaken, doubting, nothingTaken, type Taken } from './taken.ts';

/** More than any answer holds. What is longer is no answer and is not searched for one. */
const mostPieces = 200;

/** The open fields are those that the step still wants; a message is read for them only. */
export function readAnswer(step: Step, open: readonly ReadField[], pieces: readonly string[], context: Context): Taken {
  const { book, words } = context;
  if (pieces.length > mostPieces)
    return { ...nothingTaken, refusals: [refusal('left-over', { text: pieces.slice(0, mostPieces).join(' ') })] };
  const wanted = step.kind === 'again' ? [{ of: step.of, optional: false, options: [] }] : open;
  const labelled = takeLabelled(
    pieces,
    words,
    (of, rest) => readField(of, wanted.find((field) => field.of === of)?.options ?? optionsOf(of, book), rest, context),
    (piece, before) => isUnitNotLabel(piece, before, wanted, context),
  );
  const taken = { ...labelled.taken, values: { ...labelled.taken.values, ...standIns(step, labelled.taken.values) } };
  if (labelled.rest.length === 0) return doubtingNone(step, taken);
  if (step.kind === 'mark') return bothTaken(taken, readRegion(step, labelled.rest, words));
  if (step.kind === 'result') return besideValues(taken, labelled.rest);
  const unlabelled = wanted.filter((field) => !labelled.named.has(field.of));
  const placed = readInOrder(unlabelled, labelled.rest, {
    findings: book.findings,
    words,
    read: (field, rest) => readField(field.of, field.options, rest, context),
    notKnown: (of) => notKnownOf(step, of),
  });
  return doubtingNone(step, bothTaken(taken, placed));
}

/** At a result nothing without a label has a place: it is refused beside what was taken, and is a digit not shown when nothing was. */
function besideValues(taken: Taken, rest: readonly string[]): Taken {
  if (Object.keys({ ...taken.values, ...taken.doubts }).length === 0) return taken;
  return { ...taken, refusals: [...taken.refusals, refusal('left-over', { text: rest.join(' ') })] };
}

/** How much there is of a sign that was marked: none of it takes the mark back, and is asked back. */
function doubtingNone(step: Step, taken: Taken): Taken {
  if (!step.opened || step.kind !== 'read') return taken;
  return doubting(
    taken,
    step.fields.filter(({ of }) => taken.values[of] === 0).map(({ of }) => of),
  );
}

/** A `c` that stands alone behind a number is its unit when a value that is asked can be read so: 36.8 c, but not 3100 c 77. */
function isUnitNotLabel(piece: string, before: string, wanted: readonly ReadField[], context: Context): boolean {
  return (
    /^\d/.test(before) &&
    context.words.labels.has(piece) &&
    wanted.some(({ of, options }) => readField(of, options, [before, piece], context).used === 2)
  );
}

/** What stands in for labelled values of this step that cannot be had. */
function standIns(step: Step, values: Readonly<Record<string, FindingValue>>): Record<string, FindingValue> {
  const missing = Object.entries(values).filter(([, value]) => value === null);
  return Object.assign({}, ...missing.map(([of]) => notKnownOf(step, of)));
}

/** What stands in for a value that cannot be had; for a step of several fields only the entry of that field. */
function notKnownOf(step: Step, of: string): Readonly<Record<string, FindingValue>> {
  if (step.kind === 'again') return of === step.of ? step.notKnown : {};
  if (step.kind !== 'read' || !step.fields.some((field) => field.of === of)) return {};
  if (step.fields.length === 1) return step.notKnown;
  const own = step.notKnown[of];
  return own === undefined ? {} : { [of]: own };
}

export function readRegion(step: MarkStep, pieces: readonly string[], words: Words): Taken {
  const digits = digitsOf(step);
  const read = readMarks(pieces, [...digits.keys()], words);
  if (read.kind === 'refused') return { ...nothingTaken, refusals: [read.reason] };
  if (read.kind !== 'read') return { ...nothingTaken, passed: true };
  return allowed(
    step,
    read.value.map((digit) => digits.get(digit) ?? digit),
  );
}

/** What was read, and beside it what one message had marked of the same step before. */
export function bothMarked(step: MarkStep, before: readonly string[], taken: Taken): Taken {
  return taken.marks === undefined || before.length === 0 ? taken : allowed(step, [...new Set([...before, ...taken.marks])]);
}

/** Unless two of the marks exclude each other. */
function allowed(step: MarkStep, marks: readonly string[]): Taken {
  const conflict = conflictOf(step, marks);
  if (conflict === null) return { ...nothingTaken, marks };
  const digits = digitsOf(step);
  const digitOf = (id: string): string => [...digits].find(([, mark]) => mark === id)?.[0] ?? '';
  return { ...nothingTaken, refusals: [{ code: 'one-of-two', values: { one: digitOf(conflict[0].id), two: digitOf(conflict[1].id) } }] };
}

/** The digit of each mark of a region, and 9 for the rest of it. */
export function digitsOf(step: MarkStep): Map<string, string> {
  const digits = new Map(step.marks.map((mark, at) => [String(at + 1), mark.id]));
  if (step.more !== undefined) digits.set('9', step.more);
  return digits;
}

function optionsOf(of: string, book: Book): readonly string[] {
  if (of === 'sex') return sexes;
  const finding = book.findings.get(of);
  return finding?.kind === 'choice' ? finding.options : [];
}
