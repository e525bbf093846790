// The skew t distribution type 3 (Fernandez and Steel): two halves of a t distribution that meet at the mode, the left
// one narrowed and the right one widened by nu. Nothing about babies. Next: size-for-gestation.ts, which reads it.
//
// Trap: mu is the mode, not the median, and sigma is not the standard deviation: (y - mu) / sigma is no z-score.

import { normalCdf, normalQuantile } from './normal.ts';
import { studentTFromUpperTail, studentTUpperTail } from './student-t.ts';

export interface SkewT {
  /** The mode. */
  readonly mu: number;
  /** The scale. */
  readonly sigma: number;
  /** The skewness; 1 is symmetric. */
  readonly nu: number;
  /** The degrees of freedom; not whole. */
  readonly tau: number;
}

/** The shares of a distribution below and above a value. The smaller one has all its digits. */
export interface Tails {
  readonly below: number;
  readonly above: number;
}

/**
 * The shares below and above y, each worked out on the side where y lies.
 *
 * Source   Fernandez and Steel, J Am Stat Assoc 1998;93:359-71, in the parametrisation of the R package gamlss.dist
 *          (ST3); checked in tests/published/growth-size-at-birth.test.ts.
 */
export function skewTTails({ mu, sigma, nu, tau }: SkewT, y: number): Tails {
  const distance = (y - mu) / sigma;
  const weight = 1 + nu * nu;
  if (distance < 0) {
    const below = (2 / weight) * studentTUpperTail(-distance * nu, tau);
    return { below, above: 1 - below };
  }
  const above = ((2 * nu * nu) / weight) * studentTUpperTail(distance / nu, tau);
  return { below: 1 - above, above };
}

/** The z-score with the same shares below and above. Taken from the smaller one: 1 - above loses digits as z grows. */
export function zFromTails({ below, above }: Tails): number {
  return below <= 0.5 ? normalQuantile(below) : -normalQuantile(above);
}

/** The value with as much below it as below z in the normal distribution: skewTTails the other way, each half from its own side. */
export function skewTValueAt({ mu, sigma, nu, tau }: SkewT, z: number): number {
  const weight = 1 + nu * nu;
  const below = normalCdf(z);
  if (below < 1 / weight) return mu - (sigma / nu) * studentTFromUpperTail((below * weight) / 2, tau);
  return mu + sigma * nu * studentTFromUpperTail((normalCdf(-z) * weight) / (2 * nu * nu), tau);
}
