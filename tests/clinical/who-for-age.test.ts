// The printed tables themselves are in tests/published/growth-who.test.ts.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { GrowthSex, Measure, NoReference } from '../../src/clinical/size.ts';
import { whoForAge } from '../../src/clinical/who-for-age.ts';
import { whoValueAt } from '../published/growth-inverse.ts';
import { growth, tables } from '../published/growth-printed.ts';

const sizeAt = (measure: Measure, sex: GrowthSex, ageDays: number, value: number) => {
  const answer = growth.whoForAge({ measure, sex, ageDays, value });
  if (answer.kind !== 'size') throw new Error(`No reference for day ${ageDays}.`);
  return answer;
};

const asMeasured = (measure: Measure, inTable: number) => (measure === 'weight' ? inTable * 1000 : inTable);
const anyMeasure = fc.constantFrom<Measure>('weight', 'length', 'head');
const anySex = fc.constantFrom<GrowthSex>('girl', 'boy');
const rowOf = (measure: Measure, sex: GrowthSex, ageDays: number) => tables.who[measure][sex].find((row) => row.ageDays === ageDays)!;

describe('size for age', () => {
  // Worked by hand from WHO's printed L, M and S.
  it('of a boy of 10 days and 3.20 kg is z -0.79750', () => {
    expect(sizeAt('weight', 'boy', 10, 3200).z).toBeCloseTo(-0.7975, 5);
  });

  it('of a boy of 10 days and 1.90 kg is z -3.95989 by the rule beyond 3 SD, not -4.08638', () => {
    expect(sizeAt('weight', 'boy', 10, 1900)).toMatchObject({ centile: 'below-0.1', standard: 'who' });
    expect(sizeAt('weight', 'boy', 10, 1900).z).toBeCloseTo(-3.95989, 5);
  });

  it('comes back to z from the value that the inverse formula gives, on every printed day', () => {
    const printedDays = tables.who.length.girl.map((row) => row.ageDays);
    fc.assert(
      fc.property(
        anyMeasure,
        anySex,
        fc.constantFrom(...printedDays),
        fc.double({ min: -6, max: 6, noNaN: true }),
        (measure, sex, day, z) => {
          const value = asMeasured(measure, whoValueAt(rowOf(measure, sex, day), z));
          expect(Math.abs(sizeAt(measure, sex, day, value).z - z)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it('rises with the value on every day, printed or not, through 3 SD too', () => {
    fc.assert(
      fc.property(
        anySex,
        fc.integer({ min: 0, max: 1826 }),
        fc.double({ min: 500, max: 30_000, noNaN: true }),
        fc.double({ min: 0.1, max: 2000, noNaN: true }),
        (sex, day, grams, more) => {
          expect(sizeAt('weight', sex, day, grams + more).z).toBeGreaterThan(sizeAt('weight', sex, day, grams).z);
        },
      ),
    );
  });

  it('changes nothing beyond 3 SD for length and head circumference', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Measure>('length', 'head'),
        anySex,
        fc.integer({ min: 0, max: 98 }),
        fc.double({ min: -6, max: 6, noNaN: true }),
        (measure, sex, day, z) => {
          const { m, s } = rowOf(measure, sex, day);
          expect(sizeAt(measure, sex, day, m * (1 + s * z)).z).toBeCloseTo(z, 9);
        },
      ),
    );
  });

  it('reads the row of the very day up to day 98, where weight falls from day 0 to day 1', () => {
    // WHO, boys' median weight: 3.3464 kg on day 0, 3.3174 kg on day 1.
    expect(sizeAt('weight', 'boy', 0, 3346.4).z).toBeCloseTo(0, 12);
    expect(sizeAt('weight', 'boy', 1, 3317.4).z).toBeCloseTo(0, 12);
    expect(sizeAt('weight', 'boy', 98, rowOf('weight', 'boy', 98).m * 1000).z).toBeCloseTo(0, 12);
  });

  it.each([
    [101, 98, 105, 3 / 7],
    [179, 175, 182, 4 / 7],
    [183, 6 * 30.4375, 7 * 30.4375, (183 - 6 * 30.4375) / 30.4375],
    [1826, 59 * 30.4375, 60 * 30.4375, (1826 - 59 * 30.4375) / 30.4375],
  ])('takes a straight line on day %i between the rows at %f and %f days', (day, from, to, share) => {
    const [before, after] = [rowOf('weight', 'girl', from), rowOf('weight', 'girl', to)];
    const between = (low: number, high: number) => low + share * (high - low);
    const lms = { l: between(before.l, after.l), m: between(before.m, after.m), s: between(before.s, after.s) };
    for (const z of [-4, -2, 0, 2, 4]) expect(sizeAt('weight', 'girl', day, whoValueAt(lms, z) * 1000).z).toBeCloseTo(z, 9);
  });

  it.each([0, 1e-12, 2e-9, -2e-9, 1e-7])("keeps its digits for a power of %f: the girls' passes through 0 near day 118", (l) => {
    const row = { ageDays: 118, l, m: 6, s: 0.12 };
    const almostLogarithmic = { ...tables, who: { ...tables.who, weight: { ...tables.who.weight, girl: [row] } } };
    for (const grams of [2500, 4500, 5900, 6100, 8000]) {
      const answer = whoForAge(almostLogarithmic, { measure: 'weight', sex: 'girl', ageDays: 118, value: grams });
      const logarithm = Math.log(grams / 6000);
      const distance = logarithm / 0.12 + (l * logarithm ** 2) / (2 * 0.12);
      // Beyond 3 SD: steps of the distance from 2 to 3 SD; for a power near 0 that is m exp(s k).
      const at = (k: number) => 6000 * Math.exp(0.12 * k - (l * (0.12 * k) ** 2) / 2);
      const expected = distance < -3 ? -3 + (grams - at(-3)) / (at(-2) - at(-3)) : distance;
      expect(answer).toMatchObject({ kind: 'size', z: expect.closeTo(expected, 9) });
    }
  });

  it('names a centile up to 3 SD and none beyond', () => {
    const row = rowOf('weight', 'girl', 20);
    const at = (z: number) => sizeAt('weight', 'girl', 20, whoValueAt(row, z) * 1000).centile;
    expect(at(-2.999)).toBeCloseTo(0.1354, 4);
    expect(at(2.999)).toBeCloseTo(99.8646, 4);
    expect(at(-3.001)).toBe('below-0.1');
    expect(at(3.001)).toBe('above-99.9');
  });

  it.each([-1, 1827, 0.5, 1826.25, Number.NaN])('has no reference at %f days', (ageDays) => {
    expect(growth.whoForAge({ measure: 'weight', sex: 'boy', ageDays, value: 9000 })).toEqual<NoReference>({
      kind: 'no-reference',
      reason: 'age',
    });
  });

  it('has no reference for length and head circumference after day 182, where the tables carried here end', () => {
    for (const measure of ['length', 'head'] as const) {
      expect(growth.whoForAge({ measure, sex: 'girl', ageDays: 182, value: 42 }).kind).toBe('size');
      expect(growth.whoForAge({ measure, sex: 'girl', ageDays: 183, value: 42 })).toEqual<NoReference>({
        kind: 'no-reference',
        reason: 'age',
      });
    }
  });

  it.each([0, -3000, Number.NaN, Number.POSITIVE_INFINITY])('has no reference for %f g, which is no weight', (value) => {
    expect(growth.whoForAge({ measure: 'weight', sex: 'boy', ageDays: 5, value })).toEqual<NoReference>({
      kind: 'no-reference',
      reason: 'value',
    });
  });
});
