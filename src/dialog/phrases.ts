// How findings, ages and babies are named: which key of the catalogue says it, and what goes into its places.
// Words themselves live in locales/. A key exists for every finding and option: `pipit check` proves it.

import type { Because, Case, FindingValue, Gestation, Interpretation } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import { type Say, type SayValue, say } from './reply.ts';

/** Where a finding's kind and its key are looked up. */
type Named = Pick<Book, 'findings' | 'has'>;

const hoursPerDay = 24;
const daysPerWeek = 7;
/** From here on ages are said in days. */
const hoursSaidAsHours = 72;

/** What was found: a sign by its name, a measure by its value, all readings in order. Null for what needs no naming. */
export function phraseOf(because: Because, book: Named): Say | null {
  const { finding: of, value } = because;
  const finding = book.findings.get(of);
  if (finding === undefined) return fieldPhrase(of, value, book);
  if (finding.kind === 'sign') return value === true ? say(`signs.${of}`) : absentPhrase(of, book);
  if (finding.kind === 'choice') return say(`signs.${of}.${String(value)}`);
  return say(`values.${of}`, { value: readings(value as FindingValue) });
}

/** A sign that is not there; one whose name says "no" already has a phrase of its own. */
function absentPhrase(of: string, book: Named): Say {
  return book.has(`absent.${of}`) ? say(`absent.${of}`) : say('not-done', { what: say(`signs.${of}`) });
}

function fieldPhrase(of: string, value: unknown, book: Named): Say | null {
  if (of === 'ageHours' || value === null || value === undefined) return null;
  if (of === 'sex') return value === 'not-clear' ? say('signs.sex.not-clear') : null;
  if (of === 'gestation') return say('values.gestation', { value: gestationText(value as number | Gestation) });
  const key = `values.${of}`;
  if (!book.has(key)) return null;
  return say(key, { value: shown(value) });
}

function shown(value: unknown): string | number {
  if (typeof value === 'number') return Math.round(value * 10) / 10;
  if (typeof value === 'string') return value;
  if (typeof value === 'object' && value !== null && 'class' in value) return String(value.class);
  return '';
}

/** Numbers stay numbers, so that each language can write them in its own digits. */
export function readings(value: FindingValue): SayValue {
  if (Array.isArray(value)) return value.length === 1 ? (value[0] ?? '') : value.map((one) => say('verbatim', { text: one }));
  return typeof value === 'number' ? value : String(value);
}

/** `39`, or `33+6` with days; a number of weeks with a fraction is weeks and days too. */
export function gestationText(gestation: number | Gestation): string | number {
  if (typeof gestation !== 'number') return gestation.days === undefined ? gestation.weeks : `${gestation.weeks}+${gestation.days}`;
  const days = Math.round(gestation * daysPerWeek);
  return days % daysPerWeek === 0 ? days / daysPerWeek : `${Math.floor(days / daysPerWeek)}+${days % daysPerWeek}`;
}

/**
 * The different things that led to the classifications, in their order, each named once. What was measured is said with what
 * it means: "fast breathing (breaths 64, 66)".
 */
export function reasonsFor(classifications: Interpretation['classifications'], book: Named): Say[] {
  const seen = new Set<string>();
  return classifications.flatMap(({ id, because }) => {
    const fresh = because.filter((one) => {
      const key = book.findings.get(one.finding)?.kind === 'choice' ? `${one.finding}=${String(one.value)}` : one.finding;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
    const named = fresh.filter((one) => phraseOf(one, book) !== null);
    const phrases = named.flatMap((one) => phraseOf(one, book) ?? []);
    const measured = named.some((one) => isMeasure(one.finding, book));
    return phrases.length > 0 && measured ? [say('reason.measured', { name: say(`classifications.${id}`), values: phrases })] : phrases;
  });
}

/** The signs and options among the reasons, without what was measured beside them. */
export function signsIn(because: readonly Because[], book: Named): Say[] {
  return because.filter((one) => !isMeasure(one.finding, book)).flatMap((one) => phraseOf(one, book) ?? []);
}

export function isMeasure(of: string, book: Named): boolean {
  const kind = book.findings.get(of)?.kind;
  return kind === undefined ? of !== 'sex' : kind === 'number' || kind === 'count';
}

export function agePhrase(ageHours: number): Say {
  if (ageHours < 1) return say('time.minutes', { count: Math.floor(ageHours * 60) });
  if (ageHours < hoursSaidAsHours) return say('time.hours', { count: Math.floor(ageHours) });
  return say('time.days', { count: Math.floor(ageHours / hoursPerDay) });
}

/** "girl 5 h", or as much of it as is known. */
export function babyPhrase(aCase: Pick<Case, 'sex' | 'ageHours'>): Say {
  const who = say(`baby.${aCase.sex ?? 'not-known'}`);
  const age = aCase.ageHours ?? null;
  return age === null ? who : say('baby.with-age', { who, age: agePhrase(age) });
}

/** A stretch of time from an ISO 8601 duration in the protocol: PT30M, PT12H, P2D. */
export function durationPhrase(duration: string): Say {
  const match = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?)?$/.exec(duration);
  const [, days, hours, minutes] = match ?? [];
  if (days !== undefined) return say('time.days', { count: Number(days) });
  if (hours !== undefined) return say('time.hours', { count: Number(hours) });
  return say('time.minutes', { count: Number(minutes ?? 0) });
}
