// Growth of preterm babies after birth against the printed z-score tables of INTERGROWTH-21st.
// Source: Villar et al., Lancet Glob Health 2015;3:e681-91.

import { describe, expect, it } from 'vitest';
import { asMeasured, byGroup, growth, type PrintedRow, printedRows, toleranceFor } from './growth-printed.ts';

const zColumns = { sd3neg: -3, sd2neg: -2, sd1neg: -1, sd0: 0, sd1: 1, sd2: 2, sd3: 3 };
const rows = printedRows('check-values-preterm-postnatal.csv', 'preterm-postnatal');

const zAt = (row: PrintedRow, value: number) => {
  const size = growth.pretermGrowth({
    measure: row.measure,
    sex: row.sex,
    postmenstrualWeeks: row.number('pma_weeks'),
    value: asMeasured(row.measure, value),
  });
  if (size.kind !== 'size') throw new Error(`No reference for ${row.group}, week ${row.text('pma_weeks')}.`);
  return size.z;
};

const cellsAstray = (row: PrintedRow): string[] => {
  const slack = toleranceFor(row, 'sd') + 1e-9;
  return Object.entries(zColumns).flatMap(([column, z]) => {
    const [low, high] = [row.number(column) - slack, row.number(column) + slack].map((value) => zAt(row, value));
    return low! <= z && z <= high! ? [] : [`${row.text('pma_weeks')} ${column}: ${low} to ${high}`];
  });
};

describe('growth of preterm babies and the printed tables', () => {
  it('are compared in 156 rows', () => {
    expect(rows).toHaveLength(156);
  });

  it.each(byGroup(rows))('agree in every cell: %s', (_group, group) => {
    expect(group.flatMap(cellsAstray)).toEqual([]);
  });
});
