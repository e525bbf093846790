import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { studentTUpperTail } from '../../src/clinical/student-t.ts';
import { integrate } from './integrate.ts';

// Closed forms of the distribution below t for 1, 2 and 4 degrees of freedom (common knowledge of statistics; each is
// the density integrated by hand).
const closedForms: Record<number, (t: number) => number> = {
  1: (t) => 0.5 - Math.atan(t) / Math.PI,
  2: (t) => 0.5 - t / (2 * Math.sqrt(2 + t * t)),
  4: (t) => {
    const s = 1 + (t * t) / 4;
    return 0.5 - (3 / 8) * (t / Math.sqrt(s)) * (1 - (t * t) / (12 * s));
  },
};

/** With t = sqrt(degrees) tan(angle) the density is a power of the cosine, over a finite interval. */
const addedUp = (t: number, degrees: number) => {
  const density = (angle: number) => Math.cos(angle) ** (degrees - 1);
  const all = integrate(density, 0, Math.PI / 2, 10_000);
  return integrate(density, Math.atan(t / Math.sqrt(degrees)), Math.PI / 2, 10_000) / (2 * all);
};

describe("the upper tail of Student's t", () => {
  it.each([1, 2, 4])('is the closed form for %i degrees of freedom', (degrees) => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 20, noNaN: true }), (t) => {
        expect(Math.abs(studentTUpperTail(t, degrees) - closedForms[degrees]!(t))).toBeLessThan(1e-14);
      }),
    );
  });

  // The degrees of freedom of the newborn tables lie between these.
  it.each([15.4146, 17.05299, 19.65738, 26.17975])('is its density added up for %f degrees of freedom', (degrees) => {
    for (const t of [0, 1e-9, 1e-4, 0.1, 0.398114, 0.99, 1, 1.01, 1.582671, 3, 6, 12]) {
      const expected = addedUp(t, degrees);
      expect(Math.abs(studentTUpperTail(t, degrees) / expected - 1)).toBeLessThan(1e-11);
    }
  });

  it('keeps its digits close to the middle, where the textbook form has none left', () => {
    // The slope at 0 for 2 degrees of freedom is 1 / (2 sqrt 2).
    for (const t of [1e-6, 1e-8, 1e-10]) {
      expect((0.5 - studentTUpperTail(t, 2)) / t).toBeCloseTo(1 / (2 * Math.SQRT2), 5);
    }
  });

  it('meets itself where one form takes over from the other', () => {
    expect(studentTUpperTail(1 - 1e-12, 17.05299)).toBeCloseTo(studentTUpperTail(1 + 1e-12, 17.05299), 11);
  });
});
