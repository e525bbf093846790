// The printed tables themselves are in tests/published/growth-size-at-birth.test.ts.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { GrowthSex, Measure, NoReference, Size } from '../../src/clinical/size.ts';
import { equationValueAt, skewTValueAt } from '../published/growth-inverse.ts';
import { growth, tables } from '../published/growth-printed.ts';

const size = (measure: Measure, sex: GrowthSex, gestationDays: number, value: number): Size => {
  const answer = growth.sizeForGestation({ measure, sex, gestationDays, value });
  if (answer.kind !== 'size') throw new Error(`No reference for day ${gestationDays}.`);
  return answer;
};

const anyMeasure = fc.constantFrom<Measure>('weight', 'length', 'head');
const anySex = fc.constantFrom<GrowthSex>('girl', 'boy');
const anyDay = fc.integer({ min: 168, max: 300 });

describe('size for gestation', () => {
  // Worked by hand from the published parameters and equations.
  it.each([
    ['boy', 252, 2500, -0.47839, 31.6, 'intergrowth-21st'],
    ['girl', 281, 3900, 1.45803, 92.8, 'intergrowth-21st'],
    ['girl', 197, 1000, -0.15998, 43.6, 'intergrowth-21st-very-preterm'],
  ] as const)('of a %s at %i days and %i g is z %f, centile %f, by %s', (sex, days, grams, z, centile, standard) => {
    const answer = size('weight', sex, days, grams);
    expect(answer.z).toBeCloseTo(z, 5);
    expect(answer.centile).toBeCloseTo(centile, 1);
    expect(answer.standard).toBe(standard);
  });

  it('comes back to z from the value that the inverse formulae give, on every day', () => {
    fc.assert(
      fc.property(anyMeasure, anySex, anyDay, fc.double({ min: -4, max: 4, noNaN: true }), (measure, sex, day, z) => {
        const row = tables.newborn[measure][sex].get(day);
        const inTable = row ? skewTValueAt(row, z) : equationValueAt(tables.veryPreterm[measure], day / 7, sex, z);
        fc.pre(inTable > 0);
        expect(Math.abs(size(measure, sex, day, measure === 'weight' ? inTable * 1000 : inTable).z - z)).toBeLessThan(1e-9);
      }),
    );
  });

  it('rises with the value, and centile and z with each other', () => {
    fc.assert(
      fc.property(
        anySex,
        anyDay,
        fc.double({ min: 300, max: 8000, noNaN: true }),
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        (sex, day, grams, more) => {
          const [less, greater] = [size('weight', sex, day, grams), size('weight', sex, day, grams + more)];
          expect(greater.z).toBeGreaterThan(less.z);
          expect(greater.centile).toBeGreaterThanOrEqual(less.centile);
          expect(less.centile < 50).toBe(less.z < 0);
        },
      ),
    );
  });

  // Where the reference before 33+0 meets the standard from 33+0 on. Values of both as published.
  it.each([
    ['boy', 10, 1502, 1438],
    ['girl', 90, 2328, 2344],
  ] as const)("keeps the jump from 32+6 to 33+0: the %ss' centile %i goes from %i g to %i g", (sex, centile, before, after) => {
    for (const [day, grams] of [
      [230, before],
      [231, after],
    ] as const) {
      expect(size('weight', sex, day, grams - 0.5).centile).toBeLessThan(centile);
      expect(size('weight', sex, day, grams + 0.5).centile).toBeGreaterThan(centile);
    }
    expect(size('weight', sex, 230, before).standard).toBe('intergrowth-21st-very-preterm');
    expect(size('weight', sex, 231, after).standard).toBe('intergrowth-21st');
  });

  it('does not round: a baby just below the 10th centile stays below it', () => {
    const row = tables.newborn.weight.girl.get(280)!;
    const tenth = skewTValueAt(row, -1.2815515655446004) * 1000;
    const { centile } = size('weight', 'girl', 280, tenth - 0.5);
    expect(centile).toBeLessThan(10);
    expect(centile.toFixed(0)).toBe('10');
  });

  it.each([167, 301, 0, -7, 280.5, 200.5, Number.NaN, Number.POSITIVE_INFINITY])('has no reference at %f days', (gestationDays) => {
    for (const measure of ['weight', 'length', 'head'] as const) {
      expect(growth.sizeForGestation({ measure, sex: 'girl', gestationDays, value: 40 })).toEqual<NoReference>({
        kind: 'no-reference',
        reason: 'age',
      });
    }
  });

  it.each([168, 230, 231, 300])('has a reference at %i days, the first and last of each table', (gestationDays) => {
    for (const measure of ['weight', 'length', 'head'] as const) {
      for (const sex of ['girl', 'boy'] as const) expect(size(measure, sex, gestationDays, 40).z).toBeTypeOf('number');
    }
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e300])('has no reference for %f, which is no size', (value) => {
    for (const measure of ['weight', 'head'] as const) {
      const answer = growth.sizeForGestation({ measure, sex: 'boy', gestationDays: 280, value });
      expect(answer).toEqual<NoReference>({ kind: 'no-reference', reason: 'value' });
    }
  });

  it('shows kilograms mistaken for grams as a z-score far out of range', () => {
    expect(size('weight', 'boy', 280, 3.3).z).toBeLessThan(-4);
    expect(size('weight', 'boy', 200, 1.1).z).toBeLessThan(-10);
  });
});
