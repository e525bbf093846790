import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ageHours, ageParts } from '../../src/clinical/age.ts';

const bornAt = Date.UTC(2025, 10, 24, 4, 30);
const hours = (count: number) => count * 3_600_000;

describe('age', () => {
  it.each([
    [0, 0],
    [0.5, 0.5],
    [5, 5],
    [23.75, 23.75],
    [61, 61],
    [1439, 1439],
  ])('%f hours after birth is %f hours', (after, age) => {
    expect(ageHours(bornAt, bornAt + hours(after))).toBe(age);
  });

  it.each([
    ['birth lies a minute after now', bornAt, bornAt - 60_000],
    ['birth is not a number', Number.NaN, bornAt],
    ['now is not a number', bornAt, Number.NaN],
    ['birth is infinitely long ago', Number.NEGATIVE_INFINITY, bornAt],
  ])('is not known when %s', (_why, born, now) => {
    expect(ageHours(born, now)).toBeNull();
  });

  it.each([
    [0, { hours: 0, days: 0, weeks: 0, dayOfLife: 1 }],
    [23.99, { hours: 23, days: 0, weeks: 0, dayOfLife: 1 }],
    [24, { hours: 24, days: 1, weeks: 0, dayOfLife: 2 }],
    [167.9, { hours: 167, days: 6, weeks: 0, dayOfLife: 7 }],
    [168, { hours: 168, days: 7, weeks: 1, dayOfLife: 8 }],
    [1439, { hours: 1439, days: 59, weeks: 8, dayOfLife: 60 }],
  ])('of %f hours is said in completed parts', (age, parts) => {
    expect(ageParts(age)).toEqual(parts);
  });

  it('never goes back as time goes on', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 50_000, noNaN: true }), fc.double({ min: 0, max: 500, noNaN: true }), (age, more) => {
        const [before, after] = [ageParts(age), ageParts(age + more)];
        for (const part of ['hours', 'days', 'weeks', 'dayOfLife'] as const) expect(after[part]).toBeGreaterThanOrEqual(before[part]);
      }),
    );
  });
});
