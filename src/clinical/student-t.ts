// The upper tail of Student's t distribution and back from it, for any number of degrees of freedom, whole or not.
// Nothing about babies. Next: skew-t.ts, which is made of two halves of this one.
//
// Traps: cephes' own stdtr takes whole degrees of freedom only, so the tail is written with the incomplete beta function.
// Why this file waits for `compiled` is told in normal.ts.

import { compiled, incbet, incbi } from 'cephes';

await compiled;

/**
 * The share of the distribution above t.
 *
 * The textbook form, I_q(degrees/2, 1/2) / 2 with q = degrees / (degrees + t^2), loses half its digits near t = 0, where
 * q rounds to 1. There the mirrored form is used, which is the same number.
 *
 * Takes    t: >= 0. degrees: > 0.
 * Returns  0 to 1/2, exact to the last few digits however small it is.
 */
export function studentTUpperTail(t: number, degrees: number): number {
  const square = t * t;
  if (square < 1) return 0.5 - 0.5 * incbet(0.5, degrees / 2, square / (degrees + square));
  return 0.5 * incbet(degrees / 2, 0.5, degrees / (degrees + square));
}

/**
 * The t above which this share lies, from the same two forms.
 *
 * Takes    share: above 0, up to 1/2. degrees: > 0.
 * Returns  >= 0.
 */
export function studentTFromUpperTail(share: number, degrees: number): number {
  if (share > 0.25) {
    const p = incbi(0.5, degrees / 2, 1 - 2 * share);
    return Math.sqrt((degrees * p) / (1 - p));
  }
  const q = incbi(degrees / 2, 0.5, 2 * share);
  return Math.sqrt((degrees * (1 - q)) / q);
}
