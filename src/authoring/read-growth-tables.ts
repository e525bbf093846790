// The published growth tables: CSV text in, typed tables or diagnostics out. Opens no file (src/cli/load-growth-tables.ts
// does) and computes nothing (src/clinical/growth.ts does). Where the tables come from: flows/reference/README.md.
// Next: read-growth-rows.ts (rows by day and age), read-growth-equations.ts, read-growth-ranges.ts.

import type { GrowthTables, PerMeasure } from '../clinical/growth-tables.ts';
import type { Measure } from '../clinical/size.ts';
import { type Diagnostic, sortDiagnostics, wholeFile } from './diagnostic.ts';
import { type Report, tableFault } from './read-csv.ts';
import { pretermPostnatalFile, readEquations, veryPretermFile } from './read-growth-equations.ts';
import { rangesFile, readGrowthRanges } from './read-growth-ranges.ts';
import { newbornFile, readNewbornRows, readWhoRows, whoFile, whoMonthlyFile } from './read-growth-rows.ts';

/** Every file that the tables are read from. */
export const growthTableFiles: readonly string[] = [
  newbornFile('weight'),
  newbornFile('length'),
  newbornFile('head'),
  veryPretermFile,
  pretermPostnatalFile,
  whoFile('weight'),
  whoFile('length'),
  whoFile('head'),
  whoMonthlyFile,
  rangesFile,
];

export type ReadGrowthTables =
  | { readonly kind: 'tables'; readonly tables: GrowthTables }
  | { readonly kind: 'refused'; readonly diagnostics: readonly Diagnostic[] };

/**
 * The tables, or all that is wrong with them. One bad row refuses them all.
 *
 * Takes    files: file name -> its text, for each name in growthTableFiles.
 */
export function readGrowthTables(files: ReadonlyMap<string, string>): ReadGrowthTables {
  const diagnostics: Diagnostic[] = [];
  const report: Report = (diagnostic) => diagnostics.push(diagnostic);
  for (const file of growthTableFiles) if (!files.has(file)) report(missingFile(file));
  if (diagnostics.length > 0) return { kind: 'refused', diagnostics };

  const textOf = (file: string) => files.get(file) ?? '';
  const ranges = readGrowthRanges(textOf(rangesFile), report);
  const born = ranges['very-preterm'];
  const after = ranges['preterm-postnatal'];
  const tables: GrowthTables = {
    newborn: forEachMeasure((measure) => readNewbornRows(measure, textOf, ranges, report)),
    veryPreterm: readEquations(veryPretermFile, textOf(veryPretermFile), { firstWeek: born.first / 7, lastWeek: born.last / 7 }, report),
    pretermPostnatal: readEquations(
      pretermPostnatalFile,
      textOf(pretermPostnatalFile),
      { firstWeek: after.first, lastWeek: after.last },
      report,
    ),
    who: forEachMeasure((measure) => readWhoRows(measure, textOf, ranges, report)),
  };
  return diagnostics.length === 0 ? { kind: 'tables', tables } : { kind: 'refused', diagnostics: sortDiagnostics(diagnostics) };
}

function forEachMeasure<T>(read: (measure: Measure) => T): PerMeasure<T> {
  return { weight: read('weight'), length: read('length'), head: read('head') };
}

function missingFile(file: string): Diagnostic {
  return tableFault(file, wholeFile, 'missing-file', {
    what: `The table "${file}" is not there.`,
    why: 'Size and growth could not be judged for any baby that it covers.',
    fix: `Put "${file}" back from the published tables.`,
  });
}
