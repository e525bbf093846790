// Size after birth of a baby born preterm, by postmenstrual age (gestation at birth and age together). The WHO tables at
// the age since birth would read a healthy baby born at 32 weeks as severely underweight: use these first.
// Takes the tables as an argument; the equations are growth-equation.ts. Next: who-for-age.ts.

import { zFromEquation } from './growth-equation.ts';
import type { GrowthTables } from './growth-tables.ts';
import { normalCdf } from './normal.ts';
import { type GrowthSex, inTableUnit, type Measure, type NoReference, noReferenceForAge, noReferenceForValue, type Size } from './size.ts';

export interface MeasuredAtPostmenstrualAge {
  readonly measure: Measure;
  readonly sex: GrowthSex;
  readonly postmenstrualWeeks: number;
  readonly value: number;
}

/**
 * Where a measure lies among healthy preterm babies of the same sex and postmenstrual age. Does not ask when the baby
 * was born: that it was born preterm (26+0 to 36+6 in the study) is the caller's to know.
 *
 * Takes    postmenstrualWeeks: exact, see postmenstrualWeeks in gestation.ts. value: grams for weight, centimetres else.
 * Returns  z and centile, unrounded; "no-reference" outside the weeks that were published.
 * Source   Villar et al., Lancet Glob Health 2015;3:e681-91; checked in tests/published/growth-preterm.test.ts.
 */
export function pretermGrowth(
  tables: GrowthTables,
  { measure, sex, postmenstrualWeeks, value }: MeasuredAtPostmenstrualAge,
): Size | NoReference {
  const y = inTableUnit(measure, value);
  if (y === null) return noReferenceForValue;
  const z = zFromEquation(tables.pretermPostnatal[measure], postmenstrualWeeks, sex, y);
  if (z === null) return noReferenceForAge;
  return { kind: 'size', z, centile: 100 * normalCdf(z), standard: 'intergrowth-preterm-postnatal' };
}
