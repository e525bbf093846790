// Reads a message as the values of several open fields: those that carry their unit wherever they stand, the rest in order.
// When what is left does not fit, it is cut anew if there is one way only. It is refused whole when a number is left over or
// two do not fit: one too many may have pushed all others out of place.

import type { Finding, FindingValue } from '../clinical/protocol.ts';
import type { ReadField } from './flow.ts';
import { saysDay } from './readings/calendar-day.ts';
import { claims } from './readings/claimed.ts';
import { onlyWay, partsOf, type Slot } from './readings/only-way.ts';
import { misplacedCount, swappedCounts } from './readings/swapped.ts';
import { type Read, type Refusal, refusal, type Words } from './readings/words.ts';
import type { Taken } from './taken.ts';

export interface Reading {
  readonly findings: ReadonlyMap<string, Finding>;
  readonly words: Words;
  readonly read: (field: ReadField, pieces: readonly string[]) => Read<FindingValue>;
  /** What stands in for a value that cannot be had. */
  readonly notKnown: (of: string) => Readonly<Record<string, FindingValue>>;
}

export function readInOrder(open: readonly ReadField[], pieces: readonly string[], reading: Reading): Taken {
  const taken: Gathering = { values: {}, doubts: {}, refusals: [] };
  const rest = open.length > 1 ? takeClaimed(open, pieces, taken, reading) : { pieces, open };
  takePlaced(rest.open, rest.pieces, taken, reading);
  const asked = open.map(({ of }) => of);
  const doubted = { ...swappedCounts(taken.values, reading.findings), ...misplacedCount(taken.values, asked, reading.findings) };
  for (const of of Object.keys(doubted)) delete taken.values[of];
  // A day that was left over may be that of a time which was read as of today.
  if (taken.refusals.length > 0 && pieces.some(saysDay)) {
    delete taken.values.born;
    delete taken.doubts.born;
  }
  return { ...taken, doubts: { ...taken.doubts, ...doubted } };
}

interface Gathering {
  readonly values: Record<string, FindingValue>;
  readonly doubts: Record<string, FindingValue>;
  readonly refusals: Refusal[];
}

function add(taken: Gathering, of: string, read: Read<FindingValue>, reading: Reading): void {
  if (read.kind === 'read') taken.values[of] = read.value;
  if (read.kind === 'doubt') taken.doubts[of] = read.value;
  if (read.kind === 'not-known') Object.assign(taken.values, { [of]: null }, reading.notKnown(of));
  if (read.kind === 'refused') taken.refusals.push(read.reason);
}

/** Takes what only one open field can claim; returns the fields and pieces that are left. */
function takeClaimed(open: readonly ReadField[], pieces: readonly string[], taken: Gathering, reading: Reading) {
  let left = open;
  const others: string[] = [];
  for (let at = 0; at < pieces.length; ) {
    const rest = pieces.slice(at, at + longestClaim);
    const claimants = left.filter(({ of, options }) => claims(of, reading.findings.get(of), options, rest, reading.words));
    const [field] = claimants;
    // `2 900 g` is a boy of 900 g, but `1 0430 39 3 100 g` ends in 3100 g.
    const isSexFirst = at === 0 && /^\d$/.test(rest[0] ?? '') && /^\d{3}/.test(rest[1] ?? '') && left.some(({ of }) => of === 'sex');
    if (field === undefined || claimants.length > 1 || isSexFirst) {
      others.push(...pieces.slice(at, at + 1));
      at += 1;
    } else {
      const read = reading.read(field, rest);
      add(taken, field.of, read, reading);
      left = left.filter((one) => one !== field);
      at += Math.max(1, read.used);
    }
  }
  return { pieces: others, open: left };
}

/** Pieces of the longest value: `1 h 30 min ago`. */
const longestClaim = 7;

function takePlaced(open: readonly ReadField[], pieces: readonly string[], taken: Gathering, reading: Reading): void {
  if (pieces.length === 0) return;
  const straight = inOrder(open, pieces, reading);
  const refused = straight.reads.flatMap(({ read }) => (read.kind === 'refused' ? read.reason : []));
  if (straight.left.length === 0 && refused.length === 0) {
    addAll(taken, straight.reads, reading);
    return;
  }

  const parts = partsOf(pieces);
  if (parts.length === 0) {
    taken.refusals.push(refusal('left-over', { text: pieces.join(' ') }));
    return;
  }
  const certain = onlyWay(parts, slotsOf(open, reading, ['read', 'not-known']));
  const ways = certain.count > 0 ? certain : onlyWay(parts, slotsOf(open, reading, ['read', 'not-known', 'doubt']));
  const isOneEach = ways.count === 0 && pieces.length === 1 && parts.length === open.length;
  const cut = ways.only ?? (isOneEach ? parts : null);
  if (cut !== null) {
    addAll(taken, inOrder(open, cut, reading).reads, reading);
    return;
  }
  const left = straight.left.join(' ');
  if (/\d/.test(left)) taken.refusals.push(refusal('left-over', { text: left }));
  else if (ways.count > 1) taken.refusals.push(refusal('left-over', { text: pieces.join(' ') }));
  else if (refused.length > 1 || (refused.length === 1 && straight.reads.some(({ read }) => read.kind === 'doubt')))
    taken.refusals.push(...refused);
  else {
    addAll(taken, straight.reads, reading);
    if (left !== '' && refused.length === 0) taken.refusals.push(refusal('left-over', { text: left }));
  }
}

interface Placed {
  readonly of: string;
  readonly read: Read<FindingValue>;
}

function inOrder(
  open: readonly ReadField[],
  pieces: readonly string[],
  reading: Reading,
): { reads: readonly Placed[]; left: readonly string[] } {
  const reads: Placed[] = [];
  let left = pieces;
  for (const field of open) {
    if (left.length === 0) break;
    const read = reading.read(field, left);
    reads.push({ of: field.of, read });
    left = left.slice(Math.max(read.used, 1));
  }
  return { reads, left };
}

function addAll(taken: Gathering, reads: readonly Placed[], reading: Reading): void {
  for (const { of, read } of reads) add(taken, of, read, reading);
}

function slotsOf(open: readonly ReadField[], reading: Reading, kinds: readonly Read<unknown>['kind'][]): Slot[] {
  return open.map((field) => ({
    takes: (value) => {
      const read = reading.read(field, [value]);
      return read.used === 1 && kinds.includes(read.kind);
    },
    takesPoint: (whole, fraction) => takesPoint(field.of, reading.findings.get(field.of), whole.length, fraction.length),
  }));
}

/** One digit more than the finding is read with still counts as a way, so that 36*85 is asked back and not cut in two. */
function takesPoint(of: string, finding: Finding | undefined, whole: number, fraction: number): boolean {
  if (of === 'born') return whole <= 2 && fraction === 2;
  if (of === 'gestation') return whole === 2 && fraction === 1;
  if (of === 'weight' || of === 'birth-weight') return whole === 1 && fraction <= 3;
  return finding?.kind === 'number' && finding.decimals > 0 && fraction <= finding.decimals + 1;
}
