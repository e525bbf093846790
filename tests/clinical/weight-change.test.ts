import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { weightChangePercent, weightGainPerDay } from '../../src/clinical/weight-change.ts';

const notWeights = [0, -1, Number.NaN, Number.POSITIVE_INFINITY];

describe('weight change since birth', () => {
  it.each([
    [3000, 2700, -10],
    [3200, 2800, -12.5],
    [3000, 3000, 0],
    [2500, 2750, 10],
  ])('from %i g to %i g is %f %%', (birth, now, percent) => {
    expect(weightChangePercent(birth, now)).toBe(percent);
  });

  it('is not rounded: a gram more than a tenth lost is more than 10 %', () => {
    expect(weightChangePercent(3000, 2699)).toBeLessThan(-10);
    expect(weightChangePercent(3000, 2701)).toBeGreaterThan(-10);
  });

  it('hits a whole percentage of whole grams exactly, so that a limit of 10 % is held to the gram', () => {
    fc.assert(
      fc.property(fc.integer({ min: 30, max: 800 }), (tenths) => {
        expect(weightChangePercent(tenths * 10, tenths * 9)).toBe(-10);
      }),
    );
  });

  it.each(notWeights)('is not known when a weight is %f', (grams) => {
    expect(weightChangePercent(grams, 3000)).toBeNull();
    expect(weightChangePercent(3000, grams)).toBeNull();
  });
});

describe('weight gain a day', () => {
  it('of 300 g in 3 days from 6000 g is 100 g, and 16.3 g per kg of the mean weight', () => {
    // WHO Pocket book of hospital care for children, 2nd ed. 2013, worked example (from memory).
    const gain = weightGainPerDay({ previousWeightGrams: 6000, weightGrams: 6300, days: 3 });
    expect(gain?.grams).toBe(100);
    expect(gain?.gramsPerKg).toBeCloseTo(16.3, 1);
  });

  it('is negative for a loss', () => {
    expect(weightGainPerDay({ previousWeightGrams: 3000, weightGrams: 2900, days: 2 })).toEqual({ grams: -50, gramsPerKg: -50 / 2.95 });
  });

  it('counts part of a day', () => {
    expect(weightGainPerDay({ previousWeightGrams: 2000, weightGrams: 2020, days: 0.5 })?.grams).toBe(40);
  });

  it.each(notWeights)('is not known when a weight or the days are %f', (bad) => {
    const good = { previousWeightGrams: 3000, weightGrams: 3100, days: 3 };
    expect(weightGainPerDay({ ...good, previousWeightGrams: bad })).toBeNull();
    expect(weightGainPerDay({ ...good, weightGrams: bad })).toBeNull();
    expect(weightGainPerDay({ ...good, days: bad })).toBeNull();
  });
});
