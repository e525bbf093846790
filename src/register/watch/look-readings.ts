// What was read in each look at a baby, from the answers that an examination keeps. Its row has one instant, and holds all looks
// before it; a reading belongs to the look in which it was answered, and to the instant at which it was first written. Pure.
// Next: baby-course.ts.

import type { Reading, TimedReading } from '../../conversation/watch.ts';
import { babyFields } from '../../dialog/flow.ts';
import type { Answer } from '../../dialog/session.ts';

/** Weights are measured; the other fields of a baby are told. */
const told: ReadonlySet<string> = new Set(babyFields.filter((field) => field !== 'weight' && field !== 'birth-weight'));

/**
 * The numbers of one look, in the order given. What stands under message 0 was known before, and was not read.
 *
 * Takes    answers: as the register holds them; of another shape, there are none.
 */
export function readingsOfLook(answers: unknown, look: number): Reading[] {
  if (!Array.isArray(answers)) return [];
  return (answers as readonly Answer[])
    .filter((answer) => (answer.look ?? 0) === look && answer.message > 0)
    .flatMap(({ values = {} }) => Object.entries(values))
    .flatMap(([of, value]) => (typeof value === 'number' && !told.has(of) ? [{ of, value }] : []));
}

export interface Looked {
  /** Of the examination, the same in all its revisions. */
  readonly id: string;
  readonly look: number;
  readonly at: number;
  readonly ageHours: number | null;
  readonly readings: readonly Reading[];
}

/**
 * Each reading once, by finding. A revision that holds what the one before it of the same look held, and more, adds only the rest;
 * where it holds something else, that stands in its place.
 *
 * Takes    looked: in the order of time.
 */
export function timedReadings(looked: readonly Looked[]): Record<string, TimedReading[]> {
  const byLook = new Map<string, Map<string, readonly TimedReading[]>>();
  for (const { id, look, at, ageHours, readings } of looked) {
    const key = JSON.stringify([id, look]);
    const before = byLook.get(key);
    const now = new Map<string, TimedReading[]>();
    for (const { of, value } of readings) {
      const list = now.get(of) ?? [];
      const known = before?.get(of) ?? [];
      const isSame = known[list.length]?.value === value && list.every((one, place) => known[place] === one);
      list.push((isSame ? known[list.length] : undefined) ?? { at, ageHours, value });
      now.set(of, list);
    }
    byLook.set(key, now);
  }
  const all: Record<string, TimedReading[]> = {};
  for (const look of byLook.values()) for (const [of, list] of look) all[of] = [...(all[of] ?? []), ...list];
  return Object.fromEntries(Object.entries(all).map(([of, list]) => [of, list.sort((a, b) => a.at - b.at)]));
}
