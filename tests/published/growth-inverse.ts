// The way back, from a z-score to a value, written apart from the code under test and only used to test it.
// Sources: the skew t inverse and the WHO formulae as their authors publish them; see flows/reference/README.md.

import { compiled, incbi, ndtr } from 'cephes';
import { type GrowthEquation, meanAndSd } from '../../src/clinical/growth-equation.ts';
import type { Lms } from '../../src/clinical/growth-tables.ts';
import type { GrowthSex } from '../../src/clinical/size.ts';
import type { SkewT } from '../../src/clinical/skew-t.ts';

await compiled;

/** The t below which this share lies. */
function studentTQuantile(share: number, tau: number): number {
  if (share > 0.5) return -studentTQuantile(1 - share, tau);
  if (share < 0.25) {
    const q = incbi(tau / 2, 0.5, 2 * share);
    return -Math.sqrt((tau * (1 - q)) / q);
  }
  const q = incbi(0.5, tau / 2, 1 - 2 * share);
  return -Math.sqrt((tau * q) / (1 - q));
}

export function skewTValueAt({ mu, sigma, nu, tau }: SkewT, z: number): number {
  const k = 1 + nu ** 2;
  const share = ndtr(z);
  if (share < 1 / k) return mu + (sigma / nu) * studentTQuantile((share * k) / 2, tau);
  // The share above, taken from its own side: 1 - share has lost the digits of the far tail.
  return mu - sigma * nu * studentTQuantile((ndtr(-z) * k) / (2 * nu ** 2), tau);
}

export function equationValueAt(equation: GrowthEquation, weeks: number, sex: GrowthSex, z: number): number {
  const { mean, sd } = meanAndSd(equation, weeks, sex);
  return equation.scale === 'logarithm' ? Math.exp(mean + z * sd) : mean + z * sd;
}

export function plainLmsValueAt({ l, m, s }: Lms, z: number): number {
  return l === 0 ? m * Math.exp(s * z) : m * (1 + l * s * z) ** (1 / l);
}

/** As WHO prints +4 and -4 SD: beyond 3, steps of the distance from 2 to 3. */
export function whoValueAt(lms: Lms, z: number): number {
  const at = (k: number) => plainLmsValueAt(lms, k);
  if (z > 3) return at(3) + (z - 3) * (at(3) - at(2));
  if (z < -3) return at(-3) + (z + 3) * (at(-2) - at(-3));
  return at(z);
}
