// The tables that are printed row by row: size at birth by exact day (skew t), and WHO's L, M and S by age.
// The rows of each sex follow each other without a gap, from the first of the table's range to the last.
// Read by read-growth-tables.ts; cells are read-csv.ts, ranges read-growth-ranges.ts.

import type { LmsRow, PerSex } from '../clinical/growth-tables.ts';
import type { GrowthSex, Measure } from '../clinical/size.ts';
import type { SkewT } from '../clinical/skew-t.ts';
import { type Diagnostic, wholeFile } from './diagnostic.ts';
import { type CsvRow, type Report, readCsv, readNumber, readWord, tableFault } from './read-csv.ts';
import type { AgeRange, GrowthTableName } from './read-growth-ranges.ts';

const nameInFiles: Readonly<Record<Measure, string>> = { weight: 'weight', length: 'length', head: 'head-circumference' };
const unitInTables: Readonly<Record<Measure, string>> = { weight: 'kg', length: 'cm', head: 'cm' };
const sexes: ReadonlyMap<string, GrowthSex> = new Map([
  ['F', 'girl'],
  ['M', 'boy'],
]);

export const newbornFile = (measure: Measure) => `intergrowth-newborn-${nameInFiles[measure]}.csv`;
export const whoFile = (measure: Measure) => `who-${nameInFiles[measure]}-for-age.csv`;
/** The only table of WHO that is carried beyond the last row by week: weight. */
export const whoMonthlyFile = 'who-weight-for-age-monthly.csv';

/** WHO's month. Source: WHO Child Growth Standards, methods and development, 2006. */
const daysPerMonth = 30.4375;
/** Beyond the daily rows WHO prints every seventh day. */
const widestStepDays = 7;

type TextOf = (file: string) => string;
type Ranges = Readonly<Record<GrowthTableName, AgeRange>>;

export function readNewbornRows(measure: Measure, textOf: TextOf, ranges: Ranges, report: Report): PerSex<ReadonlyMap<number, SkewT>> {
  const file = newbornFile(measure);
  const unit = unitInTables[measure];
  const columns = ['sex', 'ga_days', 'ga_weeks', 'ga_extra_days', `mu_${unit}`, `sigma_${unit}`, 'nu', 'tau', 'row_origin'];
  const tables = { girl: new Map<number, SkewT>(), boy: new Map<number, SkewT>() };
  for (const row of readCsv(file, textOf(file), columns, report)) {
    const sex = readWord(row, 'sex', sexes, report);
    const days = readNumber(row, 'ga_days', 'whole', report);
    const skewT = {
      mu: readNumber(row, `mu_${unit}`, 'positive', report),
      sigma: readNumber(row, `sigma_${unit}`, 'positive', report),
      nu: readNumber(row, 'nu', 'positive', report),
      tau: readNumber(row, 'tau', 'positive', report),
    };
    const weeks = readNumber(row, 'ga_weeks', 'whole', report);
    const extraDays = readNumber(row, 'ga_extra_days', 'whole', report);
    if (sex === undefined || Number.isNaN(days)) continue;
    if (days !== 7 * weeks + extraDays) report(wrongDay(row, days));
    reportUnlessNext(row, [...tables[sex].keys()].at(-1), days, 1, report);
    tables[sex].set(days, skewT);
  }
  for (const sex of sexes.values()) reportUnlessWhole(file, sex, [...tables[sex].keys()], ranges.newborn, report);
  return tables;
}

export function readWhoRows(measure: Measure, textOf: TextOf, ranges: Ranges, report: Report): PerSex<readonly LmsRow[]> {
  const file = whoFile(measure);
  const byDay = readLmsRows(file, textOf(file), 'age_days', measure, ranges.who, report);
  if (measure !== 'weight') return byDay;
  const byMonth = readLmsRows(whoMonthlyFile, textOf(whoMonthlyFile), 'age_months', measure, ranges['who-monthly'], report);
  const joined = (sex: GrowthSex) => {
    const lastDay = byDay[sex].at(-1)?.ageDays ?? 0;
    return [...byDay[sex], ...byMonth[sex].filter((row) => row.ageDays > lastDay)];
  };
  return { girl: joined('girl'), boy: joined('boy') };
}

function readLmsRows(
  file: string,
  text: string,
  ageColumn: 'age_days' | 'age_months',
  measure: Measure,
  range: AgeRange,
  report: Report,
): PerSex<readonly LmsRow[]> {
  const unit = unitInTables[measure];
  const [daysPerUnit, widestStep] = ageColumn === 'age_days' ? [1, widestStepDays] : [daysPerMonth, 1];
  const tables: Record<GrowthSex, LmsRow[]> = { girl: [], boy: [] };
  const ages: Record<GrowthSex, number[]> = { girl: [], boy: [] };
  for (const row of readCsv(file, text, ['sex', ageColumn, 'l', `m_${unit}`, 's'], report)) {
    const sex = readWord(row, 'sex', sexes, report);
    const age = readNumber(row, ageColumn, 'whole', report);
    const lms = {
      l: readNumber(row, 'l', 'any', report),
      m: readNumber(row, `m_${unit}`, 'positive', report),
      s: readNumber(row, 's', 'positive', report),
    };
    if (sex === undefined || Number.isNaN(age)) continue;
    reportUnlessNext(row, ages[sex].at(-1), age, widestStep, report);
    ages[sex].push(age);
    tables[sex].push({ ageDays: age * daysPerUnit, ...lms });
  }
  for (const sex of sexes.values()) reportUnlessWhole(file, sex, ages[sex], range, report);
  return tables;
}

function reportUnlessNext(row: CsvRow, last: number | undefined, now: number, widestStep: number, report: Report): void {
  if (last === undefined || (now > last && now <= last + widestStep)) return;
  report(
    tableFault(row.file, row.range, 'out-of-order', {
      what: `This row is for ${now}; the one before it for the same sex is for ${last}.`,
      why: 'A row that is missing, twice there or out of its place leaves babies of that day with no reference or a wrong one.',
      fix: 'Put the rows of each sex in the order of age, with none left out.',
    }),
  );
}

function wrongDay(row: CsvRow, days: number): Diagnostic {
  return tableFault(row.file, row.range, 'days-and-weeks-differ', {
    what: `ga_days reads ${days}, which is not seven times ga_weeks plus ga_extra_days.`,
    why: 'A baby would be held against the row of another day.',
    fix: 'Correct ga_days, ga_weeks or ga_extra_days from the published table.',
  });
}

function reportUnlessWhole(file: string, sex: GrowthSex, ages: readonly number[], range: AgeRange, report: Report): void {
  if (ages[0] === range.first && ages.at(-1) === range.last) return;
  const found = ages.length === 0 ? 'There is no row' : `The rows go from ${ages[0]} to ${ages.at(-1)}`;
  report(
    tableFault(file, wholeFile, 'not-whole', {
      what: `${found} for ${sex === 'girl' ? 'girls (F)' : 'boys (M)'}; ranges.csv says ${range.first} to ${range.last}.`,
      why: 'Babies of the ages in between could not be judged, and nobody would know why.',
      fix: 'Copy the rows again from the published table.',
    }),
  );
}
