// Reads the printed tables of this folder for the growth tests, and the tables under test from flows/reference.

import { readFileSync } from 'node:fs';
import { loadGrowthTables } from '../../src/cli/load-growth-tables.ts';
import { bindGrowth } from '../../src/clinical/growth.ts';
import type { GrowthSex, Measure } from '../../src/clinical/size.ts';

export const tables = await loadGrowthTables(new URL('../../flows/reference', import.meta.url).pathname);
export const growth = bindGrowth(tables);

export interface PrintedRow {
  /** standard, measure and sex as printed, for the name of a test. */
  readonly group: string;
  readonly standard: string;
  readonly measure: Measure;
  readonly sex: GrowthSex;
  text(column: string): string;
  number(column: string): number;
}

/** The rows of one file, as printed. `standard` is the column of that name, or this one where the file has none. */
export function printedRows(file: string, standard?: string): readonly PrintedRow[] {
  const [header = '', ...lines] = readFileSync(new URL(file, import.meta.url), 'utf8')
    .trimEnd()
    .split('\n');
  const columns = header.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    const text = (column: string) => {
      const cell = cells[columns.indexOf(column)];
      if (cell === undefined || cell === '') throw new Error(`${file} has no "${column}" in: ${line}`);
      return cell;
    };
    const name = standard ?? text('standard');
    return {
      group: [name, text('measure'), columns.includes('sex') ? text('sex') : ''].join(' ').trim(),
      standard: name,
      measure: text('measure') === 'head_circumference' ? 'head' : (text('measure') as Measure),
      sex: columns.includes('sex') && text('sex') === 'M' ? 'boy' : 'girl',
      text,
      number: (column) => Number(text(column)),
    };
  });
}

export function byGroup(rows: readonly PrintedRow[]): [string, readonly PrintedRow[]][] {
  const groups = new Map<string, PrintedRow[]>();
  for (const row of rows) groups.set(row.group, [...(groups.get(row.group) ?? []), row]);
  return [...groups];
}

const tolerances = printedRows('growth-tolerances.csv');

/** How far a printed cell may lie from the computed value, in the table's unit. */
export function toleranceFor(row: PrintedRow, columns: 'p' | 'sd' | 'all'): number {
  const found = tolerances.find((one) => one.standard === row.standard && one.measure === row.measure && one.text('columns') === columns);
  if (found === undefined) throw new Error(`growth-tolerances.csv has no row for ${row.group}, columns ${columns}`);
  return found.number('tolerance');
}

/** A printed value, in the unit that the public functions take: grams for weight, centimetres for the others. */
export function asMeasured(measure: Measure, printed: number): number {
  return measure === 'weight' ? printed * 1000 : printed;
}
