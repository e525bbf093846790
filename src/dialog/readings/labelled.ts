// Takes the labelled values out of a message: T36.8, T 36.8, T:36.8, R=44, BW3100, SPO2 96, Pl32. What has no label is left in
// order. Two different values under one label are both refused: nobody can tell which was meant.

import type { FindingValue } from '../../clinical/protocol.ts';
import type { Taken } from '../taken.ts';
import { isWord, type Read, type Refusal, refusal, type Words } from './words.ts';

/** Longest value, in pieces: "1 h 30 min ago" after its label. */
const valuePieces = 8;

/**
 * A label counts only when a value that begins with a digit, or that says "not known", follows it.
 *
 * Returns  named: what was labelled, read or not; rest: the pieces without a label.
 * Takes    isUnit: whether this piece is the unit of the number before it, although it is a label too (36.8 C, C77).
 */
export function takeLabelled(
  pieces: readonly string[],
  words: Words,
  read: (of: string, rest: readonly string[]) => Read<FindingValue>,
  isUnit: (piece: string, before: string) => boolean,
): { taken: Taken; named: ReadonlySet<string>; rest: readonly string[] } {
  const given = new Map<string, { readonly outcome: Read<FindingValue>; readonly text: string }>();
  const refusals: Refusal[] = [];
  const rest: string[] = [];
  const named = new Set<string>();
  for (let at = 0; at < pieces.length; ) {
    const piece = pieces[at] ?? '';
    const labelled = isUnit(piece, pieces[at - 1] ?? '') ? null : labelOf(piece, pieces[at + 1] ?? '', words);
    if (labelled === null) {
      rest.push(piece);
      at += 1;
      continue;
    }
    const { of, value } = labelled;
    named.add(of);
    const following = pieces.slice(at + 1, at + valuePieces);
    const outcome = read(of, value === '' ? following : [value, ...following]);
    const used = Math.max(1, outcome.used) + (value === '' ? 1 : 0);
    const text = pieces.slice(at, at + used).join(' ');
    const earlier = given.get(of);
    if (outcome.kind === 'refused') refusals.push(outcome.reason);
    else if (earlier === undefined || heldOf(earlier.outcome) === heldOf(outcome)) given.set(of, { outcome, text });
    else {
      refusals.push(refusal('one-of-two', { one: earlier.text, two: text }));
      given.set(of, { outcome: { kind: 'refused', reason: refusal('left-over', { text }), used }, text });
    }
    at += used;
  }
  return { taken: { ...sorted(given), refusals }, named, rest };
}

/** The label that a piece begins with, the longest there is, and what stands behind it; null when no value follows. */
function labelOf(piece: string, next: string, words: Words): { of: string; value: string } | null {
  for (let end = Math.min(piece.length, longestLabel); end > 0; end -= 1) {
    const of = words.labels.get(piece.slice(0, end));
    if (of === undefined) continue;
    const value = mendValue(piece.slice(end).replace(/^[:=]/, ''));
    if (beginsValue(value === '' ? next : value, words)) return { of, value };
  }
  return null;
}

const longestLabel = 24;

/** `-36.8` after a label is a dash between the two; `l32` is 132. */
function mendValue(value: string): string {
  const dashed = /^-(?=[\d.])/.test(value) ? value.slice(1) : value;
  return /^[oli]+\d/.test(dashed) ? dashed.replace(/^[oli]+/, (letters) => letters.replaceAll('o', '0').replace(/[li]/g, '1')) : dashed;
}

function beginsValue(value: string, words: Words): boolean {
  return /^\.?\d/.test(value) || isWord(words, 'not-known', value);
}

function heldOf(outcome: Read<FindingValue>): FindingValue | undefined {
  return outcome.kind === 'read' || outcome.kind === 'doubt' ? outcome.value : outcome.kind === 'not-known' ? null : undefined;
}

function sorted(given: ReadonlyMap<string, { readonly outcome: Read<FindingValue> }>): Pick<Taken, 'values' | 'doubts'> {
  const values: Record<string, FindingValue> = {};
  const doubts: Record<string, FindingValue> = {};
  for (const [of, { outcome }] of given) {
    if (outcome.kind === 'read') values[of] = outcome.value;
    if (outcome.kind === 'doubt') doubts[of] = outcome.value;
    if (outcome.kind === 'not-known') values[of] = null;
  }
  return { values, doubts };
}
