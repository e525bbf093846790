// Reads one value of a finding or of a field of the baby from the front of the pieces, in the kind that it has.
// Next: readings/, one file for each kind; read-in-order.ts, for several fields in one message.

import type { Finding, FindingValue } from '../clinical/protocol.ts';
import type { Book, Caller } from './book.ts';
import { readDatedGestation } from './readings/dated-gestation.ts';
import { readGestation } from './readings/gestation.ts';
import { readChoice } from './readings/marks.ts';
import { readNumber } from './readings/number.ts';
import { readTime } from './readings/time.ts';
import { readWeight } from './readings/weight.ts';
import { isWord, type Read, refused, type Words } from './readings/words.ts';

export interface Context {
  readonly book: Book;
  readonly words: Words;
  readonly caller: Caller;
  readonly now: number;
}

export const sexes = ['girl', 'boy', 'not-clear'] as const;

export function readField(
  of: string,
  options: readonly string[],
  pieces: readonly string[],
  { book, words, caller, now }: Context,
): Read<FindingValue> {
  switch (of) {
    case 'sex':
      return readChoice(pieces, sexes, words);
    case 'born':
      return readTime(pieces, { now, zone: caller.zone, oldestDays: book.ranges['age-days'].high }, words);
    case 'gestation': {
      const dated = readDatedGestation(pieces, { now, zone: caller.zone }, book.ranges.gestation, words);
      if (dated !== null) return dated;
      const read = readGestation(pieces, book.ranges.gestation, words);
      if (read.kind !== 'read' && read.kind !== 'doubt') return read;
      const { weeks, days } = read.value;
      return { ...read, value: days === undefined ? `${weeks}` : `${weeks}+${days}` };
    }
    case 'birth-weight':
    case 'weight':
      return readWeight(pieces, book.ranges.weight, words);
    case 'card':
      return readCard(pieces, words);
  }
  return readFinding(book.findings.get(of), options, pieces, words);
}

const longestCard = 20;

/** The number on the mother's card: it holds a digit, so that no stray word is taken for it. */
function readCard([first]: readonly string[], words: Words): Read<string> {
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  if (first.length > longestCard) return refused('card', 1, { text: first });
  return /\d/.test(first) ? { kind: 'read', value: first.toUpperCase(), used: 1 } : refused('left-over', 1, { text: first });
}

function readFinding(
  finding: Finding | undefined,
  options: readonly string[],
  pieces: readonly string[],
  words: Words,
): Read<FindingValue> {
  if (finding === undefined) return refused('left-over', 1, { text: pieces[0] ?? '' });
  if (finding.kind === 'number' || finding.kind === 'count') {
    return finding.unit === 'g' ? readWeight(pieces, finding, words) : readNumber(pieces, finding, words);
  }
  if (finding.kind === 'choice') return readChoice(pieces, options.length > 0 ? options : finding.options, words);
  const read = readChoice(pieces, ['seen', 'not-seen'], words);
  return read.kind === 'read' ? { ...read, value: read.value === 'seen' } : read;
}
