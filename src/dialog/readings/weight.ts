// Reads a weight in grams: 3100, 3100g, 3.1, 3,1, 3.1kg, 3.100, and 3 100 in two pieces. A number too small for grams is
// kilograms. Next: number.ts.

import { type Amount, readAmount } from './amount.ts';
import { plausible, type Quantity } from './number.ts';
import { isWord, type Read, refused, type Words } from './words.ts';

const gramsPerKilogram = 1000;

/**
 * Returns  read: whole grams within the range. doubt: a zero may have been lost (310: the weight as sent is asked back, so that
 *          a baby so small can be told, and a wrong yes errs towards referral); the unit is a thousand off (3.1g); one digit alone.
 */
export function readWeight(pieces: readonly string[], range: Quantity, words: Words): Read<number> {
  const [first] = pieces;
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  const amount = readWeighed(pieces, words);
  const factor = amount === null ? null : perUnit(amount, range, words);
  if (amount === null || factor === null) return refused('not-a-number', 1, { text: first });
  const { used } = amount;
  const grams = Math.round(Number((amount.value * factor).toPrecision(12)));
  const isBareDigit = amount.unit === '' && factor !== 1 && amount.fraction === '';
  if (plausible(grams, range)) return { kind: isBareDigit || plausible(grams * 10, range) ? 'doubt' : 'read', value: grams, used };
  const saysGrams = amount.unit !== '' && factor === 1;
  const otherUnit = Math.round(saysGrams ? amount.value * gramsPerKilogram : amount.value);
  if (amount.unit !== '' && plausible(otherUnit, range)) return { kind: 'doubt', value: otherUnit, used };
  return refused('out-of-range', used, { text: pieces.slice(0, used).join(' '), low: range.low, high: range.high, unit: range.unit });
}

/** The amount in front, with thousands written apart joined: `3 100`, `3 100 g`. */
export function readWeighed(pieces: readonly string[], words: Words): (Amount & { readonly apart: boolean }) | null {
  const isUnit = (piece: string): boolean => isWord(words, 'grams', piece) || isWord(words, 'kilograms', piece);
  const [first = '', second = '', third] = pieces;
  if (/^\d$/.test(first) && /^\d{3}(?!\d)/.test(second)) {
    const joined = readAmount(third === undefined ? [first + second] : [first + second, third], isUnit);
    if (joined !== null && joined.fraction === '') return { ...joined, used: joined.used + 1, apart: true };
  }
  const amount = readAmount(pieces, isUnit);
  return amount === null ? null : { ...amount, apart: false };
}

/** What one is worth in grams; null when a unit is said that is no weight. */
function perUnit({ value, whole, fraction, unit, per }: Amount, range: Quantity, words: Words): number | null {
  if (per !== '') return null;
  // 3.100g: the point parts the thousands.
  if (isWord(words, 'grams', unit)) return fraction.length === 3 && whole !== '' ? gramsPerKilogram : 1;
  if (isWord(words, 'kilograms', unit)) return gramsPerKilogram;
  if (unit !== '') return null;
  return value * gramsPerKilogram <= range.high ? gramsPerKilogram : 1;
}
