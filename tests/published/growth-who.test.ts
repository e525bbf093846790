// Growth after birth against WHO's printed expanded tables.
// Sources: WHO Child Growth Standards, Geneva 2006 (weight, length) and 2007 (head circumference).

import { describe, expect, it } from 'vitest';
import { plainLmsValueAt } from './growth-inverse.ts';
import { asMeasured, byGroup, growth, type PrintedRow, printedRows, tables, toleranceFor } from './growth-printed.ts';

const zColumns = { sd4neg: -4, sd3neg: -3, sd2neg: -2, sd1neg: -1, sd0: 0, sd1: 1, sd2: 2, sd3: 3, sd4: 4 };
const centileColumns = { p1: 1, p3: 3, p5: 5, p10: 10, p15: 15, p25: 25, p50: 50, p75: 75, p85: 85, p90: 90, p95: 95, p97: 97, p99: 99 };

const rows = printedRows('check-values-who.csv', 'who');

const sizeAt = (row: PrintedRow, value: number) => {
  const size = growth.whoForAge({
    measure: row.measure,
    sex: row.sex,
    ageDays: row.number('age_days'),
    value: asMeasured(row.measure, value),
  });
  if (size.kind !== 'size') throw new Error(`No reference for ${row.group}, day ${row.text('age_days')}.`);
  return size;
};

const cellsAstray = (row: PrintedRow): string[] => {
  const slack = toleranceFor(row, 'all') + 1e-9;
  const astray: string[] = [];
  for (const [column, z] of Object.entries(zColumns)) {
    const [low, high] = [row.number(column) - slack, row.number(column) + slack].map((value) => sizeAt(row, value).z);
    if (!(low! <= z && z <= high!)) astray.push(`${row.text('age_days')} ${column}: ${low} to ${high}`);
  }
  for (const [column, centile] of Object.entries(centileColumns)) {
    const [low, high] = [row.number(column) - slack, row.number(column) + slack].map((value) => sizeAt(row, value).centile as number);
    if (!(low! <= centile && centile <= high!)) astray.push(`${row.text('age_days')} ${column}: ${low} to ${high}`);
  }
  return astray;
};

describe('growth after birth and the tables printed by WHO', () => {
  it('are compared in 333 rows', () => {
    expect(rows).toHaveLength(333);
  });

  it.each(byGroup(rows))('agree in every cell, beyond 3 SD too: %s', (_group, group) => {
    expect(group.flatMap(cellsAstray)).toEqual([]);
  });

  it.each(byGroup(rows))('agree at the outermost centiles, where no centile is named: %s', (_group, group) => {
    // Standard normal quantile of 0.1 % (from memory).
    const z = 3.090232306167813;
    for (const row of group) {
      expect(sizeAt(row, row.number('p0_1')).centile).toBe('below-0.1');
      expect(sizeAt(row, row.number('p99_9')).centile).toBe('above-99.9');
      const lms = tables.who[row.measure][row.sex].find(({ ageDays }) => ageDays === row.number('age_days'))!;
      expect(Math.abs(plainLmsValueAt(lms, -z) - row.number('p0_1'))).toBeLessThanOrEqual(toleranceFor(row, 'all') + 1e-9);
      expect(Math.abs(plainLmsValueAt(lms, z) - row.number('p99_9'))).toBeLessThanOrEqual(toleranceFor(row, 'all') + 1e-9);
    }
  });
});
