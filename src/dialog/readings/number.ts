// Reads a measured number: 36.8, 36,8, 36*8, 36.8c, 98.4f, 44/min, 22/30s. What is outside the plausible range is refused
// with the range, or asked back when one slip of the thumb explains it. Limits come from the finding. Next: weight.ts.

import type { NumberFinding } from '../../clinical/protocol.ts';
import { type Amount, readAmount, worthOf } from './amount.ts';
import { isInBand } from './swapped.ts';
import { isWord, type Read, refused, type Words } from './words.ts';

export interface Quantity {
  readonly low: number;
  readonly high: number;
  readonly decimals: number;
  readonly unit: string;
}

type Measured = Quantity & Partial<Pick<NumberFinding, 'bands' | 'judgedRounded'>>;

/**
 * The number that the pieces begin with, in the finding's unit.
 *
 * Takes    pieces: what is left of the message. finding: range, decimals and unit.
 * Returns  read: always within the range. doubt: a lost decimal point, or Fahrenheit that does not say so. not-known: `-`.
 *          refused: with the range; a count over part of a minute too near a limit to be doubled.
 */
export function readNumber(pieces: readonly string[], finding: Measured, words: Words): Read<number> {
  const [first] = pieces;
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  const amount = readAmount(pieces, (piece) => isUnitOf(finding, piece, words));
  // A star is a point only where a point belongs: 36*8, but not 44*132.
  if (amount === null || (amount.point === '*' && amount.fraction.length > Math.max(1, finding.decimals)))
    return refused('not-a-number', 1, { text: first });
  const { used } = amount;
  const read =
    amount.per !== '' && finding.unit === '/min' ? readOverTime(amount, finding, words, first) : readPlain(amount, finding, words, first);
  return { ...read, used };
}

function isUnitOf({ unit }: Quantity, piece: string, words: Words): boolean {
  if (unit === '/min') return isWord(words, 'seconds', piece);
  return worthOf(piece, unit, words) !== null || (unit === '°C' && isWord(words, 'fahrenheit', piece));
}

function readPlain(amount: Amount, finding: Measured, words: Words, shown: string): Read<number> {
  // mmol/l holds a slash of its own.
  const unit = amount.per === '' ? amount.unit : `${amount.unit}/${amount.per}`;
  if (finding.unit === '°C' && isWord(words, 'fahrenheit', unit)) return within(fromFahrenheit(amount.value), finding, shown);
  const worth = unit === '' ? 1 : worthOf(unit, finding.unit, words);
  if (worth === null) return refused('not-a-number', 1, { text: shown });
  const value = amount.value * worth;
  const doubted = unit === '' ? doubtOf(value, amount, finding) : null;
  if (doubted !== null) return { kind: 'doubt', value: round(doubted, finding.decimals), used: 1 };
  if (finding.decimals === 0 && !Number.isInteger(value)) return refused('whole-number', 1, { text: shown });
  return within(value, finding, shown);
}

/**
 * What was probably meant, where exactly one slip explains what cannot be believed; null: believed, or past explaining.
 *
 * A concentration is read off a meter with its decimal. Written whole with two digits it has lost the point, or is in another
 * unit; the smaller value is the one asked back, because believing the larger in error would hide a low one. 18.0 is believed.
 */
function doubtOf(value: number, { whole, fraction }: Amount, finding: Quantity): number | null {
  if (finding.unit === '°C' && value > finding.high && plausible(fromFahrenheit(value), finding)) return fromFahrenheit(value);
  const lostPoint = value / 10;
  if (finding.decimals === 0 || fraction !== '' || whole.length < 2 || !plausible(lostPoint, finding)) return null;
  if (finding.unit === 'mmol/L') return plausible(value, finding) ? lostPoint : null;
  return plausible(value, finding) ? null : lostPoint;
}

const minute = 60;
/** The only part of a minute that is doubled. */
const halfMinute = 30;

/** 44/min and 44/60 are a full minute; 22/30s is doubled, where one breath more or less would not change what it means. */
function readOverTime({ value: count, unit, per }: Amount, finding: Measured, words: Words, shown: string): Read<number> {
  const [, digits = '', word = ''] = /^(\d*)(\D.*)?$/u.exec(per) ?? [];
  const saysMinutes = isWord(words, 'minutes', word) && (digits === '' || digits === '1');
  const saysSeconds = digits !== '' && (word === '' || isWord(words, 'seconds', word));
  if (unit !== '' || !Number.isInteger(count) || !(saysMinutes || saysSeconds)) return refused('not-a-number', 1, { text: shown });
  if (saysMinutes || Number(digits) === minute) return within(count, finding, shown);
  const band = (n: number): string | undefined => finding.bands?.find((one) => isInBand(n, one))?.id;
  const [fewer, more] = [2 * (count - 1), 2 * (count + 1)];
  if (Number(digits) !== halfMinute || band(fewer) !== band(more)) return refused('full-minute', 1, { text: shown });
  return within(2 * count, finding, shown);
}

const mostDecimals = 3;

/** Only what is judged rounded is rounded: 2.54 cm stays beyond a limit of 2.5. */
function within(value: number, finding: Measured, shown: string): Read<number> {
  const rounded = round(value, finding.judgedRounded === false ? mostDecimals : finding.decimals);
  if (plausible(rounded, finding)) return { kind: 'read', value: rounded, used: 1 };
  return refused('out-of-range', 1, { text: shown, low: finding.low, high: finding.high, unit: finding.unit });
}

export function plausible(value: number, range: { readonly low: number; readonly high: number }): boolean {
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
