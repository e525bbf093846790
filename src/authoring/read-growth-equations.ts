// The tables that are printed as equations: one coefficient a row.
// Read by read-growth-tables.ts; what a term means is src/clinical/growth-equation.ts, for which weeks read-growth-ranges.ts.

import { type GrowthEquation, termNames, type WeightedTerm } from '../clinical/growth-equation.ts';
import type { PerMeasure } from '../clinical/growth-tables.ts';
import type { Measure } from '../clinical/size.ts';
import { type Diagnostic, wholeFile } from './diagnostic.ts';
import { type CsvRow, type Report, readCsv, readNumber, readWord, tableFault } from './read-csv.ts';

export const veryPretermFile = 'intergrowth-very-preterm-equations.csv';
export const pretermPostnatalFile = 'intergrowth-preterm-postnatal-equations.csv';

type Scale = GrowthEquation['scale'];
type Parameter = 'mean' | GrowthEquation['spreadIs'];

const measureWords: ReadonlyMap<string, Measure> = new Map([
  ['weight', 'weight'],
  ['length', 'length'],
  ['head_circumference', 'head'],
]);
const scaleWords: ReadonlyMap<string, Scale> = new Map([
  ['ln(kg)', 'logarithm'],
  ['ln(cm)', 'logarithm'],
  ['cm', 'measure'],
]);
const parameterWords: ReadonlyMap<string, Parameter> = new Map([
  ['mean', 'mean'],
  ['variance', 'variance'],
  ['sd', 'sd'],
]);
const termWords = new Map(termNames.map((term) => [term, term]));

interface EquationRow extends WeightedTerm {
  readonly measure: Measure;
  readonly scale: Scale;
  readonly parameter: Parameter;
}

/** The equations of a file, one for each measure, for these exact weeks. */
export function readEquations(
  file: string,
  text: string,
  weeks: { readonly firstWeek: number; readonly lastWeek: number },
  report: Report,
): PerMeasure<GrowthEquation> {
  const rows = readCsv(file, text, ['measure', 'scale', 'parameter', 'term', 'coefficient'], report).flatMap((row) => readRow(row, report));
  const equationOf = (measure: Measure): GrowthEquation => {
    const own = rows.filter((row) => row.measure === measure);
    const mean = own.filter((row) => row.parameter === 'mean');
    const spread = own.filter((row) => row.parameter !== 'mean');
    const complain = (found: string) => report(brokenEquation(file, `${found} for ${measure}`));
    if (mean.length === 0) complain('no mean');
    if (spread.length === 0) complain('no variance and no sd');
    if (countDistinct(own, (row) => row.scale) > 1) complain('more than one scale');
    if (countDistinct(spread, (row) => row.parameter) > 1) complain('both a variance and an sd');
    if (countDistinct(own, (row) => `${row.parameter} ${row.term}`) < own.length) complain('the same term twice');
    return {
      ...weeks,
      scale: own[0]?.scale ?? 'measure',
      mean,
      spread,
      spreadIs: spread[0]?.parameter === 'variance' ? 'variance' : 'sd',
    };
  };
  return { weight: equationOf('weight'), length: equationOf('length'), head: equationOf('head') };
}

function readRow(row: CsvRow, report: Report): readonly EquationRow[] {
  const measure = readWord(row, 'measure', measureWords, report);
  const scale = readWord(row, 'scale', scaleWords, report);
  const parameter = readWord(row, 'parameter', parameterWords, report);
  const term = readWord(row, 'term', termWords, report);
  const coefficient = readNumber(row, 'coefficient', 'any', report);
  if (measure === undefined || scale === undefined || parameter === undefined || term === undefined) return [];
  return [{ measure, scale, parameter, term, coefficient }];
}

function countDistinct<T>(items: readonly T[], by: (item: T) => string): number {
  return new Set(items.map(by)).size;
}

function brokenEquation(file: string, found: string): Diagnostic {
  return tableFault(file, wholeFile, 'broken-equation', {
    what: `There is ${found}.`,
    why: 'An equation with a part missing or twice there gives wrong centiles for every baby that it covers.',
    fix: 'Copy the rows again from the published equations.',
  });
}
