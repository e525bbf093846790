// The standard normal distribution: what share lies below z, and the z below which a share lies.
// Nothing about babies. The other distribution is student-t.ts.
//
// Trap: cephes is WebAssembly, and as an ES module its functions throw until `compiled` has resolved. Each file that
// imports it therefore waits here, at load: whoever can import the function can call it, in any order.

import { compiled, ndtr, ndtri } from 'cephes';

await compiled;

/** The share of the distribution below z, 0 to 1. */
export function normalCdf(z: number): number {
  return ndtr(z);
}

/**
 * The z below which this share lies. Keeps its digits for a small share, not for one near 1: ask for the smaller tail
 * and turn the sign.
 *
 * Takes    share: 0 to 1.
 * Returns  infinite at 0 and 1, where cephes would throw.
 */
export function normalQuantile(share: number): number {
  if (share <= 0) return Number.NEGATIVE_INFINITY;
  if (share >= 1) return Number.POSITIVE_INFINITY;
  return ndtri(share);
}
