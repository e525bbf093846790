// What ages each published table covers. The equations carry no limits of their own, so they are written beside them;
// for the tables with rows, the first and last row are held against them, so that a file cut short does not go unseen.
// Read by read-growth-tables.ts.

import { wholeFile } from './diagnostic.ts';
import { type Report, readCsv, readNumber, readWord, tableFault } from './read-csv.ts';

export const rangesFile = 'ranges.csv';

/** Each table, and the unit in which its range is written. */
const unitOf = {
  newborn: 'ga_days',
  'very-preterm': 'ga_days',
  'preterm-postnatal': 'pma_weeks',
  who: 'age_days',
  'who-monthly': 'age_months',
} as const;
export type GrowthTableName = keyof typeof unitOf;
const tableNames = Object.keys(unitOf) as readonly GrowthTableName[];

/** Both ends are included. */
export interface AgeRange {
  readonly first: number;
  readonly last: number;
}

/** The range of each table, in its own unit; NaN, and a report, where there is none. */
export function readGrowthRanges(text: string, report: Report): Readonly<Record<GrowthTableName, AgeRange>> {
  const found = new Map<GrowthTableName, AgeRange>();
  const names = new Map(tableNames.map((name) => [name, name]));
  for (const row of readCsv(rangesFile, text, ['table', 'unit', 'first', 'last'], report)) {
    const table = readWord(row, 'table', names, report);
    if (table === undefined) continue;
    readWord(row, 'unit', new Map([[unitOf[table], true]]), report);
    found.set(table, { first: readNumber(row, 'first', 'whole', report), last: readNumber(row, 'last', 'whole', report) });
  }
  const rangeOf = (table: GrowthTableName): AgeRange => {
    const range = found.get(table);
    if (range !== undefined) return range;
    report(
      tableFault(rangesFile, wholeFile, 'no-range', {
        what: `There is no row for "${table}".`,
        why: 'Without its limits a table would be read for ages that it was never made for.',
        fix: `Add a row: ${table},${unitOf[table]},<first>,<last>.`,
      }),
    );
    return { first: Number.NaN, last: Number.NaN };
  };
  return {
    newborn: rangeOf('newborn'),
    'very-preterm': rangeOf('very-preterm'),
    'preterm-postnatal': rangeOf('preterm-postnatal'),
    who: rangeOf('who'),
    'who-monthly': rangeOf('who-monthly'),
  };
}
