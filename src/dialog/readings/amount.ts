// An amount as workers write it: a number, a unit close to it or after a space, and what it is counted over: 36.8, 36,8c,
// 36*8, .5, 3.1 kg, 44/min, 22/30s. Says what stands there; what it means is for number.ts, weight.ts and time-ago.ts.

import { isWord, type Words } from './words.ts';

export interface Amount {
  readonly value: number;
  /** Digits before the point and after it, as written. */
  readonly whole: string;
  readonly fraction: string;
  /** What was written for the point. */
  readonly point: string;
  readonly unit: string;
  /** What follows a slash: `min`, `30s`. */
  readonly per: string;
  readonly used: number;
}

const written = /^(\d{0,6})(?:([.,*])(\d{1,3}))?([^\d.,*/+]{0,16})(?:\/([^/]{1,16}))?$/u;

/** The amount that the pieces begin with; null when there is none. Takes isUnit: whether a piece of its own is a unit of it. */
export function readAmount(pieces: readonly string[], isUnit: (piece: string) => boolean): Amount | null {
  const [first = '', second] = pieces;
  const [, whole = '', point = '', fraction = '', unit = '', per = ''] = written.exec(first) ?? [];
  if (whole === '' && fraction === '') return null;
  const value = Number(`${whole === '' ? '0' : whole}.${fraction === '' ? '0' : fraction}`);
  const amount = { value, whole, fraction, point, unit, per, used: 1 };
  if (second === undefined || !isUnit(second)) return amount;
  if (/^\d+$/.test(per)) return { ...amount, per: per + second, used: 2 };
  return unit === '' && per === '' ? { ...amount, unit: second, used: 2 } : amount;
}

/** Unit of a finding -> what one of a said unit is worth in it. A unit that is not here is only its own sign: %, mmol/l. */
const worth: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  '°C': { celsius: 1 },
  g: { grams: 1, kilograms: 1000 },
  s: { seconds: 1, minutes: 60 },
  min: { seconds: 1 / 60, minutes: 1, hours: 60 },
  h: { minutes: 1 / 60, hours: 1, days: 24 },
  days: { days: 1, weeks: 7 },
  weeks: { weeks: 1 },
};
/** Signs that no language translates. */
const lengths: Readonly<Record<string, number>> = { mm: 1, cm: 10 };

/** What one of the said unit is worth in the finding's own; null when it is no unit of such a finding. */
export function worthOf(said: string, unit: string, words: Words): number | null {
  if (said === unit.toLowerCase()) return 1;
  const from = Object.hasOwn(lengths, said) ? lengths[said] : undefined;
  const to = Object.hasOwn(lengths, unit) ? lengths[unit] : undefined;
  if (from !== undefined && to !== undefined) return from / to;
  const known = Object.entries(worth[unit] ?? {}).find(([what]) => isWord(words, what, said));
  return known?.[1] ?? null;
}
