// Readings of a finding that repeats, oldest first: which of them stand, and which one is meant by "the lowest".
// Which bands hold is said by the finding's data. Next: judge.ts.

import { bandOf } from './bands.ts';
import type { Band, NumberLine } from './number-line.ts';
import type { Which } from './test-kinds.ts';
import type { Value } from './value.ts';

export function readingsOf(value: Value): readonly number[] {
  if (typeof value === 'number') return [value];
  return Array.isArray(value) ? (value as readonly number[]) : none;
}

const none: readonly number[] = [];

/**
 * The readings that stand: every one in a band that holds; else one in a band that holds until another band is read, and
 * that has not been read since; else the last.
 */
export function standing(readings: readonly number[], finding: NumberLine, bands: readonly Band[]): readonly number[] {
  if (readings.length < 2) return readings;
  const inBand = readings.map((reading) => bandOf(reading, bands)?.id ?? '');
  const held = readings.filter((_, i) => finding.holds.includes(inBand[i] ?? ''));
  if (held.length > 0) return held;
  for (let i = readings.length - 2; i >= 0; i--) {
    const until = finding.holdsUntil[inBand[i] ?? ''];
    if (until !== undefined && !isReadSince(readings, i, until, bands)) return readings.slice(i, i + 1);
  }
  return readings.slice(-1);
}

/** A reading beyond the awaited band counts as having reached it: 37.8 ends what 36.5 would have ended. */
function isReadSince(readings: readonly number[], since: number, until: string, bands: readonly Band[]): boolean {
  const awaited = bands.find((band) => band.id === until);
  return (
    awaited !== undefined &&
    readings.slice(since + 1).some((reading) => (awaited.openFrom ? reading > awaited.from : reading >= awaited.from))
  );
}

/** The reading that is meant; undefined when there is none such. `standing` is more than one, see above. */
export function pick(readings: readonly number[], which: Exclude<Which, 'standing'>): number | undefined {
  switch (which) {
    case 'first':
      return readings[0];
    case 'second':
      return readings[1];
    case 'third':
      return readings[2];
    case 'last':
      return readings.at(-1);
    case 'lowest':
      return readings.length === 0 ? undefined : Math.min(...readings);
    case 'highest':
      return readings.length === 0 ? undefined : Math.max(...readings);
  }
}

/** True when a later reading is lower than the one before it. */
export function fall(readings: readonly number[]): boolean {
  return readings.some((reading, i) => i > 0 && reading < (readings[i - 1] ?? reading));
}
