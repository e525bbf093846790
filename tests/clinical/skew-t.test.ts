import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type SkewT, skewTTails, zFromTails } from '../../src/clinical/skew-t.ts';
import { studentTUpperTail } from '../../src/clinical/student-t.ts';
import { skewTValueAt } from '../published/growth-inverse.ts';
import { tables } from '../published/growth-printed.ts';
import { integrate } from './integrate.ts';

const everyRow = Object.values(tables.newborn).flatMap((perSex) => Object.values(perSex).flatMap((rows) => [...rows.values()]));
const anyRow = fc.constantFrom(...everyRow);
const anyZ = fc.double({ min: -6, max: 6, noNaN: true });

/** The density up to a constant, as Fernandez and Steel (J Am Stat Assoc 1998;93:359-71) build it from two halves of a t. */
const density =
  ({ mu, sigma, nu, tau }: SkewT) =>
  (y: number) => {
    const u = (y - mu) / sigma;
    const x = u < 0 ? u * nu : u / nu;
    return (1 + (x * x) / tau) ** (-(tau + 1) / 2);
  };

describe('the skew t distribution', () => {
  it.each([-3, -1, -0.2, 0, 0.3, 1, 2.5])('has below it what its density adds up to, %f scales from the mode', (scales) => {
    for (const row of everyRow.filter((_, index) => index % 70 === 0)) {
      const [low, high, at] = [row.mu - 60 * row.sigma, row.mu + 60 * row.sigma, row.mu + scales * row.sigma];
      const f = density(row);
      // Cut at the mode, where the two halves meet with a kink in their curvature.
      const below = at < row.mu ? integrate(f, low, at, 8000) : integrate(f, low, row.mu, 8000) + integrate(f, row.mu, at, 8000);
      const all = integrate(f, low, row.mu, 8000) + integrate(f, row.mu, high, 8000);
      expect(skewTTails(row, at).below).toBeCloseTo(below / all, 9);
    }
  });

  // Worked by hand for two babies: the t argument, its share, the share below, z.
  it('follows a boy of 36+0 and 2.50 kg step by step', () => {
    const row = tables.newborn.weight.boy.get(252)!;
    const argument = (row.nu * (2.5 - row.mu)) / row.sigma;
    expect(argument).toBeCloseTo(-0.398114, 6);
    expect(studentTUpperTail(-argument, row.tau)).toBeCloseTo(0.347743, 6);
    const tails = skewTTails(row, 2.5);
    expect(tails.below).toBeCloseTo(0.316188, 6);
    expect(zFromTails(tails)).toBeCloseTo(-0.47839, 5);
  });

  it('follows a girl of 40+1 and 3.90 kg step by step', () => {
    const row = tables.newborn.weight.girl.get(281)!;
    const argument = (3.9 - row.mu) / (row.nu * row.sigma);
    expect(argument).toBeCloseTo(1.582671, 6);
    expect(studentTUpperTail(argument, row.tau)).toBeCloseTo(0.064727, 6);
    const tails = skewTTails(row, 3.9);
    expect(tails.below).toBeCloseTo(0.927583, 6);
    expect(zFromTails(tails)).toBeCloseTo(1.45803, 5);
  });

  it('comes back to z from the value that the inverse formula gives', () => {
    fc.assert(
      fc.property(anyRow, anyZ, (row, z) => {
        expect(Math.abs(zFromTails(skewTTails(row, skewTValueAt(row, z))) - z)).toBeLessThan(1e-9);
      }),
    );
  });

  it('rises with the value', () => {
    fc.assert(
      fc.property(anyRow, anyZ, fc.double({ min: 1e-6, max: 3, noNaN: true }), (row, z, more) => {
        const value = skewTValueAt(row, z);
        expect(zFromTails(skewTTails(row, value + more))).toBeGreaterThan(zFromTails(skewTTails(row, value)));
      }),
    );
  });

  it('has shares that add up to one, and 1 / (1 + nu squared) of them below the mode', () => {
    fc.assert(
      fc.property(anyRow, anyZ, (row, z) => {
        const { below, above } = skewTTails(row, skewTValueAt(row, z));
        expect(below + above).toBeCloseTo(1, 14);
        expect(skewTTails(row, row.mu).below).toBeCloseTo(1 / (1 + row.nu ** 2), 14);
      }),
    );
  });

  it('is its own mirror image with nu turned over', () => {
    fc.assert(
      fc.property(anyRow, anyZ, (row, z) => {
        const value = skewTValueAt(row, z);
        const mirrored = skewTTails({ ...row, nu: 1 / row.nu }, 2 * row.mu - value);
        expect(zFromTails(mirrored)).toBeCloseTo(-zFromTails(skewTTails(row, value)), 9);
      }),
    );
  });

  it('does not take distance from the mode for a z-score', () => {
    // The median of girls at 33+0 lies 0.15 scales above the mode.
    const row = tables.newborn.weight.girl.get(231)!;
    expect((skewTValueAt(row, 0) - row.mu) / row.sigma).toBeCloseTo(0.15, 2);
  });
});
