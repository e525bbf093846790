// A published growth equation: a mean and a spread, each a sum of coefficients times terms in exact weeks and sex.
// The coefficients are data (flows/reference/*-equations.csv); only the meaning of each printed term stands here.
// Read by size-for-gestation.ts and preterm-growth.ts.

import type { GrowthSex } from './size.ts';

/** Each term as it is printed in the tables. `male` is 1 for boys and 0 for girls; weeks are exact, not completed. */
const terms = {
  '1': () => 1,
  male: (_weeks: number, sex: GrowthSex) => (sex === 'boy' ? 1 : 0),
  ga_weeks: (weeks: number) => weeks,
  'sqrt(ga_weeks)': (weeks: number) => Math.sqrt(weeks),
  pma_weeks: (weeks: number) => weeks,
  'sqrt(pma_weeks)': (weeks: number) => Math.sqrt(weeks),
  'pma_weeks^-1': (weeks: number) => weeks ** -1,
  'pma_weeks^-2': (weeks: number) => weeks ** -2,
  'pma_weeks^-2*ln(pma_weeks)': (weeks: number) => weeks ** -2 * Math.log(weeks),
} as const;

export type TermName = keyof typeof terms;
export const termNames = Object.keys(terms) as readonly TermName[];

export interface WeightedTerm {
  readonly term: TermName;
  readonly coefficient: number;
}

export interface GrowthEquation {
  /** The first and last week, exact and included, for which the equation was published. */
  readonly firstWeek: number;
  readonly lastWeek: number;
  /** `logarithm`: mean and spread describe the natural logarithm of the measure. */
  readonly scale: 'measure' | 'logarithm';
  readonly mean: readonly WeightedTerm[];
  readonly spread: readonly WeightedTerm[];
  readonly spreadIs: 'variance' | 'sd';
}

/**
 * The z-score of a value, given in the table's unit.
 *
 * Takes    weeks: exact (days / 7). value: > 0, kilograms or centimetres.
 * Returns  null outside the weeks for which the equation was published.
 */
export function zFromEquation(equation: GrowthEquation, weeks: number, sex: GrowthSex, value: number): number | null {
  if (!(weeks >= equation.firstWeek && weeks <= equation.lastWeek)) return null;
  const { mean, sd } = meanAndSd(equation, weeks, sex);
  const y = equation.scale === 'logarithm' ? Math.log(value) : value;
  return (y - mean) / sd;
}

/** The value that has this z-score, in the table's unit: zFromEquation the other way. Null outside the same weeks. */
export function valueFromEquation(equation: GrowthEquation, weeks: number, sex: GrowthSex, z: number): number | null {
  if (!(weeks >= equation.firstWeek && weeks <= equation.lastWeek)) return null;
  const { mean, sd } = meanAndSd(equation, weeks, sex);
  const y = mean + z * sd;
  return equation.scale === 'logarithm' ? Math.exp(y) : y;
}

/** The mean and standard deviation at these weeks, on the equation's own scale. */
export function meanAndSd(equation: GrowthEquation, weeks: number, sex: GrowthSex): { mean: number; sd: number } {
  const sum = (parts: readonly WeightedTerm[]) =>
    parts.reduce((total, { term, coefficient }) => total + coefficient * terms[term](weeks, sex), 0);
  const spread = sum(equation.spread);
  return { mean: sum(equation.mean), sd: equation.spreadIs === 'variance' ? Math.sqrt(spread) : spread };
}
