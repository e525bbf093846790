// Size at birth against the printed tables of INTERGROWTH-21st.
// Sources: Villar et al., Lancet 2014;384:857-68 (33+0 on); Villar et al., Lancet 2016;387:844-45 (before).

import { describe, expect, it } from 'vitest';
import { equationValueAt, skewTValueAt } from './growth-inverse.ts';
import { asMeasured, byGroup, growth, type PrintedRow, printedRows, tables, toleranceFor } from './growth-printed.ts';

const centileColumns = { p03: 3, p05: 5, p10: 10, p50: 50, p90: 90, p95: 95, p97: 97 };
const zColumns = { sd3neg: -3, sd2neg: -2, sd1neg: -1, sd0: 0, sd1: 1, sd2: 2, sd3: 3 };
/** The z of the printed centiles, to the last digit: standard normal quantiles (from memory; normal.test.ts checks the function). */
const zOfCentile: Record<number, number> = {
  3: -1.880793608151251,
  5: -1.644853626951473,
  10: -1.2815515655446,
  50: 0,
  90: 1.2815515655446,
  95: 1.644853626951473,
  97: 1.880793608151251,
};
/** The recorded differences have four decimals. */
const recordedTo = 0.00005 + 1e-9;

const rows = printedRows('check-values-size-at-birth.csv');

const centileAndZ = (row: PrintedRow, value: number) => {
  const size = growth.sizeForGestation({
    measure: row.measure,
    sex: row.sex,
    gestationDays: row.number('ga_days'),
    value: asMeasured(row.measure, value),
  });
  if (size.kind !== 'size') throw new Error(`No reference for ${row.group}, day ${row.text('ga_days')}.`);
  return size;
};

const valueAt = (row: PrintedRow, z: number): number => {
  const days = row.number('ga_days');
  const skewT = tables.newborn[row.measure][row.sex].get(days);
  return skewT ? skewTValueAt(skewT, z) : equationValueAt(tables.veryPreterm[row.measure], days / 7, row.sex, z);
};

/** Printed cells whose centile or z does not lie between those of the values just below and just above. */
const cellsAstray = (row: PrintedRow): string[] => {
  const astray: string[] = [];
  for (const [column, centile] of Object.entries(centileColumns)) {
    const slack = row.number('p_max_dev') + recordedTo;
    const [low, high] = [row.number(column) - slack, row.number(column) + slack].map((value) => centileAndZ(row, value).centile);
    if (!(low! < centile && centile < high!)) astray.push(`${row.text('ga_days')} ${column}: ${low} to ${high}`);
  }
  for (const [column, z] of Object.entries(zColumns)) {
    const slack = row.number('sd_max_dev') + recordedTo;
    const [low, high] = [row.number(column) - slack, row.number(column) + slack].map((value) => centileAndZ(row, value).z);
    if (!(low! < z && z < high!)) astray.push(`${row.text('ga_days')} ${column}: ${low} to ${high}`);
  }
  return astray;
};

describe('size at birth and the printed tables', () => {
  it('are compared in 387 rows of 14 cells', () => {
    expect(rows).toHaveLength(387);
    expect(Object.keys({ ...centileColumns, ...zColumns })).toHaveLength(14);
  });

  it.each(byGroup(rows))('agree in every cell: %s', (_group, group) => {
    expect(group.flatMap(cellsAstray)).toEqual([]);
  });

  it.each(byGroup(rows))('differ by no more than rounding and the recorded quirks: %s', (_group, group) => {
    for (const row of group) {
      expect(row.number('p_max_dev')).toBeLessThanOrEqual(toleranceFor(row, 'p'));
      expect(row.number('sd_max_dev')).toBeLessThanOrEqual(toleranceFor(row, 'sd'));
    }
  });

  it.each(byGroup(rows))('differ by just as much as was found with other software: %s', (_group, group) => {
    for (const row of group) {
      const largest = (differences: number[]) => Math.max(...differences.map(Math.abs));
      const p = largest(Object.entries(centileColumns).map(([column, centile]) => row.number(column) - valueAt(row, zOfCentile[centile]!)));
      const sd = largest(Object.entries(zColumns).map(([column, z]) => row.number(column) - valueAt(row, z)));
      expect(Math.abs(p - row.number('p_max_dev'))).toBeLessThan(recordedTo);
      expect(Math.abs(sd - row.number('sd_max_dev'))).toBeLessThan(recordedTo);
    }
  });
});
