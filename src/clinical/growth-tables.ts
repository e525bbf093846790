// The published growth tables, typed: the shape of what src/authoring/read-growth-tables.ts reads from flows/reference.
// Only types, and no number of any table. Weight is in kilograms here, length and head circumference in centimetres.
// Next: size-for-gestation.ts, who-for-age.ts and preterm-growth.ts, one for each set of tables.

import type { GrowthEquation } from './growth-equation.ts';
import type { GrowthSex, Measure } from './size.ts';
import type { SkewT } from './skew-t.ts';

export type PerMeasure<T> = Readonly<Record<Measure, T>>;
export type PerSex<T> = Readonly<Record<GrowthSex, T>>;

/** WHO's three numbers at one age: Box-Cox power, median, coefficient of variation. */
export interface Lms {
  readonly l: number;
  readonly m: number;
  readonly s: number;
}

/** `ageDays` is not whole in the rows that WHO prints by month. */
export interface LmsRow extends Lms {
  readonly ageDays: number;
}

export interface GrowthTables {
  /** Size at birth, one row for each exact day of gestation. */
  readonly newborn: PerMeasure<PerSex<ReadonlyMap<number, SkewT>>>;
  /** Size at birth, before the rows above begin. */
  readonly veryPreterm: PerMeasure<GrowthEquation>;
  /** Size after birth of babies born preterm, by postmenstrual age. */
  readonly pretermPostnatal: PerMeasure<GrowthEquation>;
  /** Size after birth by age, oldest last: by day, then by week, then (weight only) by month. */
  readonly who: PerMeasure<PerSex<readonly LmsRow[]>>;
}
