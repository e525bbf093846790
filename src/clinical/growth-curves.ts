// The lines of the published standards that a baby's weight is drawn against: the way back from a z-score to a weight. Which
// standard is read is as in computed.ts. No line goes beyond the ages that were published, and nothing is smoothed where two meet.
// Takes the tables as an argument. Next: who-for-age.ts, preterm-growth.ts, size-for-gestation.ts, which read the same tables.

import { postmenstrualWeeks } from './gestation.ts';
import { valueFromEquation } from './growth-equation.ts';
import type { GrowthTables } from './growth-tables.ts';
import { normalQuantile } from './normal.ts';
import type { Gestation, ReferenceLines, Sex } from './protocol.ts';
import type { GrowthSex, GrowthStandard } from './size.ts';
import { skewTValueAt } from './skew-t.ts';
import { whoValueAt } from './who-for-age.ts';

/** The lines that both standards print and that growth charts are drawn with. */
export const drawnZ = [-3, -2, 0, 2, 3] as const;

export interface GrowthLine {
  readonly z: number;
  /** By whole days since birth, unrounded. */
  readonly points: readonly { readonly ageDays: number; readonly grams: number }[];
}

/** Between the first and the last a birth weight is appropriate for this sex and gestation; unrounded. */
export interface BirthBand {
  readonly lowCentile: number;
  readonly highCentile: number;
  readonly lowGrams: number;
  readonly medianGrams: number;
  readonly highGrams: number;
  readonly standard: GrowthStandard;
}

export interface GrowthCurves {
  readonly standard: GrowthStandard;
  /** Lowest first; a line has no points where nothing was published. */
  readonly lines: readonly GrowthLine[];
  /** Null: the gestation is not known, or outside the tables. */
  readonly atBirth: BirthBand | null;
}

export interface DrawnBaby {
  readonly sex: Sex | null;
  /** Without days, only the week is known. */
  readonly gestation: Gestation | null;
}

const daysPerWeek = 7;
const gramsPerKilogram = 1000;

/**
 * The curves for one baby's weight from birth to `untilDays`, both included.
 *
 * Returns  null when the sex is not known: the standards have no curve for both together.
 * Source   WHO Child Growth Standards, Geneva 2006; born preterm: Villar et al., Lancet Glob Health 2015;3:e681-91; at birth:
 *          Villar et al., Lancet 2014;384:857-68, and before 33+0 Lancet 2016;387:844-45; checked against the printed tables
 *          in tests/clinical/growth-curves.test.ts.
 */
export function growthCurves(
  tables: GrowthTables,
  { sex, gestation }: DrawnBaby,
  untilDays: number,
  lines: ReferenceLines,
): GrowthCurves | null {
  if (sex !== 'girl' && sex !== 'boy') return null;
  const gestationDays = gestation === null ? null : gestation.weeks * daysPerWeek + (gestation.days ?? lines.dayOfWeek);
  const isPreterm = gestation !== null && gestation.weeks < lines.pretermBeforeWeeks;
  const kilogramsAt = (ageDays: number, z: number): number | null =>
    isPreterm && gestationDays !== null
      ? valueFromEquation(tables.pretermPostnatal.weight, postmenstrualWeeks(gestationDays, ageDays), sex, z)
      : whoValueAt(tables.who.weight[sex], ageDays, z);
  const days = Array.from({ length: Math.floor(untilDays) + 1 }, (_, ageDays) => ageDays);
  return {
    standard: isPreterm ? 'intergrowth-preterm-postnatal' : 'who',
    lines: drawnZ.map((z) => ({
      z,
      points: days.flatMap((ageDays) => {
        const kilograms = kilogramsAt(ageDays, z);
        return kilograms === null ? [] : [{ ageDays, grams: kilograms * gramsPerKilogram }];
      }),
    })),
    atBirth: gestationDays === null ? null : birthBand(tables, sex, gestationDays, lines),
  };
}

function birthBand(tables: GrowthTables, sex: GrowthSex, gestationDays: number, lines: ReferenceLines): BirthBand | null {
  const row = tables.newborn.weight[sex].get(gestationDays);
  const gramsAt = (centile: number): number | null => {
    const z = zOfCentile(centile);
    const kilograms =
      row === undefined ? valueFromEquation(tables.veryPreterm.weight, gestationDays / daysPerWeek, sex, z) : skewTValueAt(row, z);
    return kilograms === null ? null : kilograms * gramsPerKilogram;
  };
  const { smallBelowCentile: lowCentile, largeAboveCentile: highCentile } = lines;
  const [lowGrams, medianGrams, highGrams] = [gramsAt(lowCentile), gramsAt(50), gramsAt(highCentile)];
  if (lowGrams === null || medianGrams === null || highGrams === null) return null;
  const standard = row === undefined ? 'intergrowth-21st-very-preterm' : 'intergrowth-21st';
  return { lowCentile, highCentile, lowGrams, medianGrams, highGrams, standard };
}

/** From the smaller tail, which keeps its digits. */
function zOfCentile(centile: number): number {
  return centile <= 50 ? normalQuantile(centile / 100) : -normalQuantile((100 - centile) / 100);
}
