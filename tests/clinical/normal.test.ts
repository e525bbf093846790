import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalCdf, normalQuantile } from '../../src/clinical/normal.ts';
import { integrate } from './integrate.ts';

const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

describe('the standard normal distribution', () => {
  it.each([-4, -1.88, -1, 0, 0.5, 1.2816, 3])('is its density added up to z = %f', (z) => {
    expect(normalCdf(z)).toBeCloseTo(0.5 + integrate(density, 0, z), 13);
  });

  // Quantiles from memory; any table of the normal distribution has them.
  it.each([
    [0.025, -1.959963984540054],
    [0.1, -1.2815515655446004],
    [0.5, 0],
    [0.9, 1.2815515655446004],
  ])('has the quantile of %f at %f', (share, z) => {
    expect(normalQuantile(share)).toBeCloseTo(z, 13);
  });

  it('comes back to z from its share', () => {
    fc.assert(
      fc.property(fc.double({ min: -8, max: 3, noNaN: true }), (z) => {
        expect(Math.abs(normalQuantile(normalCdf(z)) - z)).toBeLessThan(1e-11);
      }),
    );
  });

  it('is infinitely far at shares of 0 and 1 and does not throw', () => {
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
  });
});
