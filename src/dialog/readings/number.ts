// Reads a measured number: 36.8, 36,8, 36*8, 36.8c, 98.4f, 44/min, 22/30s, 3.1kg, 3 100 g. What is outside the plausible
// range is refused with the range, or asked back when one slip of the thumb explains it. Limits come from the finding.

import type { NumberFinding } from '../../clinical/protocol.ts';
import { isInBand } from './swapped.ts';
import { isWord, type Read, refused, type Words } from './words.ts';

const numberThenWord = /^(\d{1,6})(?:[.,*](\d{1,3}))?([^\d.,*/]*)(?:\/(\d{0,2})(\D*))?$/u;

/** Longest half-minute fraction that is doubled: a count over 30 seconds. */
const halfMinute = '30';

export interface Quantity {
  readonly low: number;
  readonly high: number;
  readonly decimals: number;
  readonly unit: string;
}

/**
 * The number at the start of the tokens, rounded to the decimals that the finding is judged at.
 *
 * Takes    pieces: what is left of the message. finding: range, decimals and unit.
 * Returns  read; doubt (a lost decimal point, Fahrenheit not said to be); not-known (`-`); refused with the range.
 */
export function readNumber(pieces: readonly string[], finding: Quantity & Partial<Pick<NumberFinding, 'bands'>>, words: Words): Read<number> {
  const first = pieces[0];
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  const match = numberThenWord.exec(first);
  if (match === null) return refused('not-a-number', 1, { text: first });
  const [, whole = '', fraction, suffix = '', seconds, after = ''] = match;
  const value = Number(fraction === undefined ? whole : `${whole}.${fraction}`);
  if (seconds !== undefined && seconds !== '') return readPartMinute(value, seconds, after, first, finding, words);
  return judge(value, suffix, first, finding, words);
}

function judge(value: number, suffix: string, shown: string, finding: Quantity, words: Words): Read<number> {
  const range = { low: finding.low, high: finding.high, unit: finding.unit };
  if (finding.unit === '°C') {
    if (isWord(words, 'fahrenheit', suffix)) return within(fromFahrenheit(value), finding, shown, 'read');
    if (suffix === '' && value > finding.high && plausible(fromFahrenheit(value), finding) && value < 10 * finding.low) {
      return { kind: 'doubt', value: round(fromFahrenheit(value), finding.decimals), used: 1 };
    }
  }
  if (!Number.isInteger(value) && finding.decimals === 0) return refused('whole-number', 1, { text: shown, ...range });
  if (plausible(value, finding)) return { kind: 'read', value: round(value, finding.decimals), used: 1 };
  const lostPoint = value / 10;
  if (finding.decimals > 0 && Number.isInteger(value) && plausible(lostPoint, finding)) {
    return { kind: 'doubt', value: round(lostPoint, finding.decimals), used: 1 };
  }
  return refused('out-of-range', 1, { text: shown, ...range });
}

/** 22/30s: a count over half a minute, doubled only when said so, and not where one breath more or less changes its meaning. */
function readPartMinute(
  count: number,
  seconds: string,
  after: string,
  shown: string,
  finding: Quantity & Partial<Pick<NumberFinding, 'bands'>>,
  words: Words,
): Read<number> {
  const saidSeconds = after === '' || isWord(words, 'seconds', after);
  if (finding.unit !== '/min' || !saidSeconds) return refused('not-a-number', 1, { text: shown });
  if (seconds === '60') return within(count, finding, shown, 'read');
  if (seconds !== halfMinute) return refused('full-minute', 1, { text: shown });
  const band = (n: number): string | undefined => finding.bands?.find((b) => isInBand(n, b))?.id;
  if (band(2 * (count - 1)) !== band(2 * (count + 1))) return refused('full-minute', 1, { text: shown });
  return within(2 * count, finding, shown, 'read');
}

/** A weight in grams: 3100, 3100g, 3.1, 3.1kg, and 3 100 in two pieces. A number too small for grams is kilograms. */
export function readWeight(pieces: readonly string[], range: Quantity, words: Words): Read<number> {
  const [first, second, third] = pieces;
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  if (/^\d$/.test(first) && second !== undefined && /^\d{3}\D*$/u.test(second)) {
    const joined = readWeight([first + second, ...(third === undefined ? [] : [third])], range, words);
    return joined.kind === 'refused' ? joined : { ...joined, used: joined.used + 1 };
  }
  const match = numberThenWord.exec(first);
  if (match === null || match[4] !== undefined) return refused('not-a-number', 1, { text: first });
  const [, whole = '', fraction, suffix = ''] = match;
  const value = Number(fraction === undefined ? whole : `${whole}.${fraction}`);
  const nextIsUnit = suffix === '' && second !== undefined && (isWord(words, 'grams', second) || isWord(words, 'kilograms', second));
  const unit = nextIsUnit ? second : suffix;
  const used = nextIsUnit ? 2 : 1;
  const saysKilograms = isWord(words, 'kilograms', unit);
  if (unit !== '' && !saysKilograms && !isWord(words, 'grams', unit)) return refused('not-a-number', 1, { text: first });
  const looksLikeKilograms = unit === '' && (fraction !== undefined || value * 1000 <= range.high) && value > 0;
  const grams = Math.round(saysKilograms || looksLikeKilograms ? value * 1000 : value);
  const read = within(grams, range, first, 'read');
  return { ...read, used };
}

function within(value: number, finding: Quantity, shown: string, kind: 'read'): Read<number> {
  if (!plausible(value, finding)) {
    return refused('out-of-range', 1, { text: shown, low: finding.low, high: finding.high, unit: finding.unit });
  }
  return { kind, value: round(value, finding.decimals), used: 1 };
}

function plausible(value: number, range: { low: number; high: number }): boolean {
  return value >= range.low && value <= range.high;
}

/** Half away from zero on the decimal digits as written, so that 36.45 is 36.5 although it has no exact binary form. */
function round(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(Number((value * scale).toPrecision(12))) / scale;
}

function fromFahrenheit(value: number): number {
  return ((value - 32) * 5) / 9;
}
