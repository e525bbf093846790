// The printed tables themselves are in tests/published/growth-preterm.test.ts.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { postmenstrualWeeks } from '../../src/clinical/gestation.ts';
import type { GrowthSex, Measure, NoReference } from '../../src/clinical/size.ts';
import { equationValueAt } from '../published/growth-inverse.ts';
import { growth, tables } from '../published/growth-printed.ts';

describe('growth of a preterm baby', () => {
  it('comes back to z from the value that the equation gives, at any exact age', () => {
    const anyMeasure = fc.constantFrom<Measure>('weight', 'length', 'head');
    const anySex = fc.constantFrom<GrowthSex>('girl', 'boy');
    fc.assert(
      fc.property(
        anyMeasure,
        anySex,
        fc.integer({ min: 27 * 7, max: 64 * 7 }),
        fc.double({ min: -6, max: 6, noNaN: true }),
        (measure, sex, days, z) => {
          const inTable = equationValueAt(tables.pretermPostnatal[measure], days / 7, sex, z);
          const answer = growth.pretermGrowth({
            measure,
            sex,
            postmenstrualWeeks: days / 7,
            value: measure === 'weight' ? inTable * 1000 : inTable,
          });
          if (answer.kind !== 'size') throw new Error(`No reference at ${days} days.`);
          expect(answer.z).toBeCloseTo(z, 9);
          expect(answer.standard).toBe('intergrowth-preterm-postnatal');
        },
      ),
    );
  });

  it('does not read a healthy baby of 32 weeks as underweight, as the tables by age since birth would', () => {
    // Boys' median at 34 weeks is 2.04 kg (Villar 2015, printed table): a boy of 32+0, two weeks old.
    const healthy = { measure: 'weight', sex: 'boy', value: 2040 } as const;
    const byPostmenstrualAge = growth.pretermGrowth({ ...healthy, postmenstrualWeeks: postmenstrualWeeks(32 * 7, 14) });
    const bySinceBirth = growth.whoForAge({ ...healthy, ageDays: 14 });
    expect(byPostmenstrualAge).toMatchObject({ kind: 'size', z: expect.closeTo(0, 1) });
    expect(bySinceBirth).toMatchObject({ kind: 'size', centile: 'below-0.1' });
  });

  it.each([26.99, 64.01, 0, Number.NaN, Number.POSITIVE_INFINITY])('has no reference at %f weeks', (weeks) => {
    expect(growth.pretermGrowth({ measure: 'weight', sex: 'girl', postmenstrualWeeks: weeks, value: 2000 })).toEqual<NoReference>({
      kind: 'no-reference',
      reason: 'age',
    });
  });

  it.each([0, -1, Number.NaN])('has no reference for %f g, which is no weight', (value) => {
    expect(growth.pretermGrowth({ measure: 'weight', sex: 'girl', postmenstrualWeeks: 40, value })).toEqual<NoReference>({
      kind: 'no-reference',
      reason: 'value',
    });
  });
});
