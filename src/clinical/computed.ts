// What is computed from the measures of a case: how the weight changed, sizes against the growth references.
// Each key is null when an input is lacking, and notComputed says which. Doses, feeds and contacts: compute-care.ts.

import { type AnyCase, foundIn } from './any-case.ts';
import type { Growth } from './growth.ts';
import type { Gestation, ReferenceLines, Sex } from './protocol.ts';
import type { Measure, NoReference, Size } from './size.ts';
import { type WeightGain, weightChangePercent, weightGainPerDay } from './weight-change.ts';
import type { WhoCentile } from './who-for-age.ts';

export type NotComputed = 'no-age' | 'no-sex' | 'no-gestation' | 'no-birth-weight' | 'no-weight' | 'no-measure' | 'outside-reference';

export type SizeClass = 'small' | 'appropriate' | 'large';

export interface SizeForGestation {
  readonly centile: number;
  readonly z: number;
  readonly class: SizeClass;
  readonly standard: string;
  /** Centiles at the first and the last day of the week, when only the week is known. */
  readonly range?: readonly [number, number];
}

/** Sex not known: both, and the class they share, else the one that is not appropriate. */
export interface SizeForBoth {
  readonly girl: SizeForGestation;
  readonly boy: SizeForGestation;
  readonly class: SizeClass;
}

export interface Sized {
  readonly z: number;
  readonly centile: WhoCentile;
  readonly standard: string;
}

export interface Computed {
  readonly weightChangePercent: number | null;
  readonly sizeForGestation: SizeForGestation | SizeForBoth | null;
  readonly weightForAge: Sized | null;
  readonly headForAge: Sized | null;
  readonly headForGestation: Sized | null;
  readonly lengthForGestation: Sized | null;
  readonly weightGainPerDay: WeightGain | null;
  readonly notComputed: Readonly<Record<string, NotComputed>>;
}

const hoursPerDay = 24;
const daysPerWeek = 7;

type Result<T> = { readonly value: T } | { readonly lacking: NotComputed };
type Sexed = 'girl' | 'boy';

export function compute(aCase: AnyCase, birthWeightGrams: number | null, lines: ReferenceLines, growth: Growth | undefined): Computed {
  const notComputed: Record<string, NotComputed> = {};
  const take = <T>(key: string, result: Result<T>): T | null => {
    if ('value' in result) return result.value;
    notComputed[key] = result.lacking;
    return null;
  };
  const weight = known(aCase.weightGrams);
  const head = numberIn(aCase, 'head-circumference');
  const length = numberIn(aCase, 'length');
  return {
    weightChangePercent: take('weightChangePercent', changeOf(aCase)),
    sizeForGestation: take('sizeForGestation', sizeOf(aCase, birthWeightGrams, lines, growth)),
    weightForAge: take('weightForAge', forAge(aCase, 'weight', weight, lines, growth)),
    headForAge: take('headForAge', forAge(aCase, 'head', head, lines, growth)),
    headForGestation: take('headForGestation', atBirth(aCase, 'head', head, lines, growth)),
    lengthForGestation: take('lengthForGestation', atBirth(aCase, 'length', length, lines, growth)),
    weightGainPerDay: take('weightGainPerDay', gainOf(aCase)),
    notComputed,
  };
}

function changeOf({ birthWeightGrams, weightGrams }: AnyCase): Result<number> {
  const birth = known(birthWeightGrams);
  const now = known(weightGrams);
  if (birth === null) return { lacking: 'no-birth-weight' };
  if (now === null) return { lacking: 'no-weight' };
  const change = weightChangePercent(birth, now);
  return change === null ? { lacking: 'no-measure' } : { value: change };
}

function gainOf(aCase: AnyCase): Result<WeightGain> {
  const weightGrams = known(aCase.weightGrams);
  if (weightGrams === null) return { lacking: 'no-weight' };
  const previousWeightGrams = numberIn(aCase, 'previous-weight');
  const days = numberIn(aCase, 'days-since-previous');
  if (previousWeightGrams === null || days === null) return { lacking: 'no-measure' };
  const gain = weightGainPerDay({ previousWeightGrams, weightGrams, days });
  return gain === null ? { lacking: 'no-measure' } : { value: gain };
}

function sizeOf(
  aCase: AnyCase,
  grams: number | null,
  lines: ReferenceLines,
  growth: Growth | undefined,
): Result<SizeForGestation | SizeForBoth> {
  const { gestation } = aCase;
  if (gestation === null || gestation === undefined) return { lacking: 'no-gestation' };
  if (grams === null) return { lacking: 'no-birth-weight' };
  if (growth === undefined) return { lacking: 'outside-reference' };
  const sex = sexOf(aCase.sex);
  if (sex !== null) return sizeOfSex(sex, gestation, grams, lines, growth);
  const girl = sizeOfSex('girl', gestation, grams, lines, growth);
  const boy = sizeOfSex('boy', gestation, grams, lines, growth);
  if ('lacking' in girl) return girl;
  if ('lacking' in boy) return boy;
  const unlike = girl.value.class === 'appropriate' ? boy.value.class : girl.value.class;
  return { value: { girl: girl.value, boy: boy.value, class: unlike } };
}

function sizeOfSex(sex: Sexed, gestation: Gestation, grams: number, lines: ReferenceLines, growth: Growth): Result<SizeForGestation> {
  const on = (day: number) =>
    growth.sizeForGestation({ measure: 'weight', sex, gestationDays: gestation.weeks * daysPerWeek + day, value: grams });
  const size = on(gestation.days ?? lines.dayOfWeek);
  if (size.kind === 'no-reference') return { lacking: 'outside-reference' };
  const { centile, z, standard } = size;
  const value = { centile, z, class: classOf(centile, lines), standard };
  if (gestation.days !== undefined) return { value };
  const first = on(0);
  const last = on(daysPerWeek - 1);
  if (first.kind === 'no-reference' || last.kind === 'no-reference') return { value };
  return { value: { ...value, range: [Math.min(first.centile, last.centile), Math.max(first.centile, last.centile)] } };
}

function classOf(centile: number, lines: ReferenceLines): SizeClass {
  if (centile < lines.smallBelowCentile) return 'small';
  return centile > lines.largeAboveCentile ? 'large' : 'appropriate';
}

function atBirth(aCase: AnyCase, measure: Measure, value: number | null, lines: ReferenceLines, growth: Growth | undefined): Result<Sized> {
  const { gestation } = aCase;
  const sex = sexOf(aCase.sex);
  const age = known(aCase.ageHours);
  if (value === null) return { lacking: 'no-measure' };
  if (age === null) return { lacking: 'no-age' };
  if (age >= lines.atBirthUntilHours) return { lacking: 'outside-reference' };
  if (gestation === null || gestation === undefined) return { lacking: 'no-gestation' };
  if (sex === null) return { lacking: 'no-sex' };
  return sized(growth?.sizeForGestation({ measure, sex, gestationDays: daysOf(gestation, lines), value }));
}

function forAge(aCase: AnyCase, measure: Measure, value: number | null, lines: ReferenceLines, growth: Growth | undefined): Result<Sized> {
  const { gestation } = aCase;
  const sex = sexOf(aCase.sex);
  const age = known(aCase.ageHours);
  if (value === null) return { lacking: measure === 'weight' ? 'no-weight' : 'no-measure' };
  if (age === null) return { lacking: 'no-age' };
  if (sex === null) return { lacking: 'no-sex' };
  const ageDays = Math.floor(age / hoursPerDay);
  const isPreterm = gestation !== null && gestation !== undefined && gestation.weeks < lines.pretermBeforeWeeks;
  if (!isPreterm) return sized(growth?.whoForAge({ measure, sex, ageDays, value }));
  const postmenstrualWeeks = (daysOf(gestation, lines) + ageDays) / daysPerWeek;
  return sized(growth?.pretermGrowth({ measure, sex, postmenstrualWeeks, value }));
}

function sized(size: Size<WhoCentile> | NoReference | undefined): Result<Sized> {
  if (size === undefined || size.kind === 'no-reference') return { lacking: 'outside-reference' };
  return { value: { z: size.z, centile: size.centile, standard: size.standard } };
}

const daysOf = (gestation: Gestation, lines: ReferenceLines): number => gestation.weeks * daysPerWeek + (gestation.days ?? lines.dayOfWeek);

export const sexOf = (sex: Sex | null | undefined): Sexed | null => (sex === 'girl' || sex === 'boy' ? sex : null);

export const known = (value: number | null | undefined): number | null => value ?? null;

/** The last reading of a finding; null when there is none. */
export function numberIn(aCase: AnyCase, finding: string): number | null {
  const value = foundIn(aCase, finding);
  if (typeof value === 'number') return value;
  return Array.isArray(value) ? ((value as readonly number[]).at(-1) ?? null) : null;
}
