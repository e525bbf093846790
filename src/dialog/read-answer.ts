// Reads one message as the answer to one step. Labelled values (T36.8 R44) are taken wherever they stand and whatever is
// being asked; the rest is read in the step's order. What can be read counts even when another part cannot.

import type { Finding, FindingValue } from '../clinical/protocol.ts';
import type { Book, Caller } from './book.ts';
import type { AgainStep, MarkStep, ReadField, ReadStep, Step } from './flow.ts';
import { conflictOf } from './gather.ts';
import { readGestation } from './readings/gestation.ts';
import { takeLabelled } from './readings/labelled.ts';
import { readChoice, readMarks } from './readings/marks.ts';
import { readNumber, readWeight } from './readings/number.ts';
import { swappedCounts } from './readings/swapped.ts';
import { readTime } from './readings/time.ts';
import type { Read, Refusal, Words } from './readings/words.ts';

/** What a message gave: answers to store, values to ask back about, and what could not be read. */
export interface Taken {
  readonly values: Readonly<Record<string, FindingValue>>;
  /** Mark ids; undefined when the step takes no marks or none were read. */
  readonly marks?: readonly string[];
  /** The region was not looked at, and the worker says so: it stays unknown. */
  readonly passed?: true;
  readonly doubts: Readonly<Record<string, FindingValue>>;
  readonly refusals: readonly Refusal[];
}

interface Context {
  readonly book: Book;
  readonly words: Words;
  readonly caller: Caller;
  readonly now: number;
}

const sexes = ['girl', 'boy', 'not-clear'] as const;

/** The open fields are those that the step still wants; a message is read for them only. */
export function readAnswer(step: Step, open: readonly ReadField[], pieces: readonly string[], context: Context): Taken {
  const readField = (of: string, options: readonly string[], rest: readonly string[]): Read<FindingValue> => readOne(of, options, rest, context);
  const labelled = takeLabelled(pieces, context.words, (of, rest) => readField(of, optionsOf(of, context.book), rest));
  if (labelled.rest.length === 0) return labelled.taken;
  const taken =
    step.kind === 'read'
      ? readInOrder(step, open, labelled.rest, readField, context.book.findings)
      : step.kind === 'again'
        ? readAgain(step, labelled.rest, readField)
        : step.kind === 'mark'
          ? readRegion(step, labelled.rest, context.words)
          : nothing;
  return merge(labelled.taken, taken);
}

const nothing: Taken = { values: {}, doubts: {}, refusals: [] };

function merge(one: Taken, two: Taken): Taken {
  return {
    ...two,
    values: { ...one.values, ...two.values },
    doubts: { ...one.doubts, ...two.doubts },
    refusals: [...one.refusals, ...two.refusals],
  };
}

function readInOrder(
  step: ReadStep,
  open: readonly ReadField[],
  pieces: readonly string[],
  readField: (of: string, options: readonly string[], rest: readonly string[]) => Read<FindingValue>,
  findings: ReadonlyMap<string, Finding>,
): Taken {
  const values: Record<string, FindingValue> = {};
  const doubts: Record<string, FindingValue> = {};
  const refusals: Refusal[] = [];
  let rest = open.length > 1 ? spread(pieces, open) : pieces;
  for (const field of open) {
    if (rest.length === 0) break;
    const read = readField(field.of, field.options, rest);
    if (read.kind === 'read') values[field.of] = read.value;
    if (read.kind === 'doubt') doubts[field.of] = read.value;
    if (read.kind === 'not-known') Object.assign(values, { [field.of]: null }, notKnownOf(step.notKnown, field.of, open.length));
    if (read.kind === 'refused') refusals.push(read.reason);
    rest = rest.slice(Math.max(read.used, 1));
  }
  if (rest.length > 0 && refusals.length === 0) refusals.push({ code: 'left-over', values: { text: rest.join(' ') } });
  const swapped = swappedCounts(values, findings);
  for (const of of Object.keys(swapped)) delete values[of];
  return { values, doubts: { ...doubts, ...swapped }, refusals };
}

/** What stands in for a value that cannot be had; for a step of several fields only the entry of that field. */
function notKnownOf(notKnown: Readonly<Record<string, FindingValue>>, of: string, fields: number): Readonly<Record<string, FindingValue>> {
  if (fields === 1) return notKnown;
  const own = notKnown[of];
  return own === undefined ? {} : { [of]: own };
}

/** One piece that holds all values with no space between, `36.8,44,132` or `36.8*44*132` from a keypad without a space. */
function spread(pieces: readonly string[], open: readonly ReadField[]): readonly string[] {
  const only = pieces.length === 1 ? pieces[0] : undefined;
  if (only === undefined) return pieces;
  const parts = only.split(/[,*/]/).filter((part) => part !== '');
  return parts.length === open.length ? parts : pieces;
}

function readAgain(step: AgainStep, pieces: readonly string[], readField: (of: string, options: readonly string[], rest: readonly string[]) => Read<FindingValue>): Taken {
  const read = readField(step.of, [], pieces);
  if (read.kind === 'read') return { ...nothing, values: { [step.of]: read.value } };
  if (read.kind === 'doubt') return { ...nothing, doubts: { [step.of]: read.value } };
  if (read.kind === 'not-known') return { ...nothing, values: { [step.of]: null, ...step.notKnown } };
  return { ...nothing, refusals: [read.reason] };
}

function readRegion(step: MarkStep, pieces: readonly string[], words: Words): Taken {
  const digits = digitsOf(step);
  const read = readMarks(pieces, [...digits.keys()], words);
  if (read.kind === 'refused') return { ...nothing, refusals: [read.reason] };
  if (read.kind !== 'read') return { ...nothing, passed: true };
  const marks = read.value.map((digit) => digits.get(digit) ?? digit);
  const conflict = conflictOf(step, marks);
  if (conflict !== null) {
    const digitOf = (id: string): string => [...digits].find(([, mark]) => mark === id)?.[0] ?? '';
    return { ...nothing, refusals: [{ code: 'one-of-two', values: { one: digitOf(conflict[0].id), two: digitOf(conflict[1].id) } }] };
  }
  return { ...nothing, marks };
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

/** One value of a finding or field, from the front of the pieces. */
function readOne(of: string, options: readonly string[], pieces: readonly string[], { book, words, caller, now }: Context): Read<FindingValue> {
  switch (of) {
    case 'sex':
      return readChoice(pieces, sexes, words);
    case 'born':
      return readTime(pieces, { now, zone: caller.zone, oldestDays: book.ranges['age-days'].high }, words);
    case 'gestation': {
      const read = readGestation(pieces, book.ranges.gestation, words);
      if (read.kind !== 'read' && read.kind !== 'doubt') return read;
      const { weeks, days } = read.value;
      return { ...read, value: days === undefined ? `${weeks}` : `${weeks}+${days}` };
    }
    case 'birth-weight':
    case 'weight':
      return readWeight(pieces, book.ranges.weight, words);
    case 'card':
      return pieces[0] === undefined || pieces[0].length > 20
        ? { kind: 'refused', reason: { code: 'card', values: { text: pieces[0] ?? '' } }, used: 1 }
        : { kind: 'read', value: pieces[0].toUpperCase(), used: 1 };
  }
  return readFinding(book.findings.get(of), options, pieces, words);
}

function readFinding(finding: Finding | undefined, options: readonly string[], pieces: readonly string[], words: Words): Read<FindingValue> {
  if (finding === undefined) return { kind: 'refused', reason: { code: 'left-over', values: { text: pieces[0] ?? '' } }, used: 1 };
  if (finding.kind === 'number' || finding.kind === 'count') {
    return finding.unit === 'g' ? readWeight(pieces, finding, words) : readNumber(pieces, finding, words);
  }
  if (finding.kind === 'choice') return readChoice(pieces, options.length > 0 ? options : finding.options, words);
  const read = readChoice(pieces, ['seen', 'not-seen'], words);
  return read.kind === 'read' ? { ...read, value: read.value === 'seen' } : read;
}
