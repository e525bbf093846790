// From the answers of an examination to the case that the protocol interprets. What was marked holds; what a region's
// answer leaves unmarked is normal; what was not asked stays unknown. A default never overwrites what was seen.

import type { Case, Finding, FindingValue, Gestation, Sex } from '../clinical/protocol.ts';
import { babyFields, type Flow, type Mark, type MarkStep, type Step } from './flow.ts';
import type { Answer, Examination } from './session.ts';

export interface Gathered {
  readonly case: Case;
  /** Finding or field -> what is held for it; a key with null was asked and cannot be had. */
  readonly known: ReadonlyMap<string, FindingValue>;
  /** Steps opened by a mark. */
  readonly opened: ReadonlySet<string>;
}

const minutesPerHour = 60;
const minute = 60_000;

/** Never throws: an answer to a step that the flow no longer has keeps its values. */
export function gather(flow: Flow, examination: Pick<Examination, 'answers'>, findings: ReadonlyMap<string, Finding>, now: number): Gathered {
  const known = new Map<string, FindingValue>();
  const opened = new Set<string>();
  const steps = new Map(flow.steps.map((step) => [step.id, step]));

  for (const answer of examination.answers) {
    for (const [of, value] of Object.entries(answer.values ?? {})) hold(known, of, value, findings);
    const step = steps.get(answer.step);
    if (step?.kind === 'mark') takeMarks(step, answer, known, opened);
  }
  for (const answer of examination.answers) {
    const step = steps.get(answer.step);
    if (step?.kind === 'mark' && answer.marks !== undefined && answer.seal === step.seal) {
      for (const [of, value] of defaultsOf(step, answer.marks, steps, findings)) if (!known.has(of)) known.set(of, value);
    }
  }
  return { case: caseOf(known, now), known, opened };
}

/** A finding that repeats keeps its readings in order, the latest few; any other keeps the last value given. */
function hold(known: Map<string, FindingValue>, of: string, value: FindingValue, findings: ReadonlyMap<string, Finding>): void {
  const before = known.get(of);
  const finding = findings.get(of);
  const repeats = finding !== undefined && (finding.kind === 'number' || finding.kind === 'count') && finding.readings > 1;
  if (value === null && before !== undefined && before !== null) return;
  if (!repeats || value === null) {
    known.set(of, value);
    return;
  }
  const readings = [...(Array.isArray(before) ? (before as number[]) : []), value as number];
  known.set(of, readings.slice(-finding.readings));
}

function takeMarks(step: MarkStep, answer: Answer, known: Map<string, FindingValue>, opened: Set<string>): void {
  for (const id of answer.marks ?? []) {
    if (step.more !== undefined && id === step.more) opened.add(step.more);
    const mark = step.marks.find((one) => one.id === id);
    const sets = mark?.sets ?? setsOfRetiredMark(id);
    if (sets !== null) known.set(sets.of, sets.value);
    if (mark?.then !== undefined) opened.add(mark.then);
  }
}

/** A mark made before an edit took it out of the step still says what was seen: its name carries finding and option. */
function setsOfRetiredMark(id: string): { of: string; value: FindingValue } | null {
  if (id.includes(':') || id.includes('/')) return null;
  const [of = '', option] = id.split('=');
  return { of, value: option ?? true };
}

/** What an answered region says of everything in it that was not marked, and of the steps that it could have opened. */
function* defaultsOf(step: MarkStep, made: readonly string[], steps: ReadonlyMap<string, Step>, findings: ReadonlyMap<string, Finding>): Generator<[string, FindingValue]> {
  for (const mark of step.marks) {
    if (made.includes(mark.id)) continue;
    yield* Object.entries(mark.otherwise);
    if (mark.sets !== null && !step.leavesOpen.includes(mark.sets.of)) yield* normalOf(mark.sets.of, findings);
    if (mark.then !== undefined) yield* defaultsOfUnopened(steps.get(mark.then), steps, findings);
  }
  if (step.more !== undefined && !made.includes(step.more)) yield* defaultsOfUnopened(steps.get(step.more), steps, findings);
}

function* defaultsOfUnopened(step: Step | undefined, steps: ReadonlyMap<string, Step>, findings: ReadonlyMap<string, Finding>): Generator<[string, FindingValue]> {
  if (step?.kind === 'mark') yield* defaultsOf(step, [], steps, findings);
  if (step?.kind === 'read') for (const field of step.fields) yield* normalOf(field.of, findings);
}

/** A sign that was looked for and not seen is false, a choice is its first option; a number has no normal value of its own. */
function* normalOf(of: string, findings: ReadonlyMap<string, Finding>): Generator<[string, FindingValue]> {
  const finding = findings.get(of);
  if (finding?.kind === 'sign') yield [of, false];
  if (finding?.kind === 'choice') yield [of, finding.options[0] ?? null];
}

function caseOf(known: ReadonlyMap<string, FindingValue>, now: number): Case {
  const findings: Record<string, FindingValue> = {};
  for (const [of, value] of known) if (!(babyFields as readonly string[]).includes(of)) findings[of] = value;
  const born = known.get('born');
  return {
    ageHours: typeof born === 'number' ? (now / minute - born) / minutesPerHour : null,
    sex: (known.get('sex') ?? null) as Sex | null,
    gestation: gestationOf(known.get('gestation')),
    birthWeightGrams: numberOf(known.get('birth-weight')),
    weightGrams: numberOf(known.get('weight')),
    findings,
    unlisted: 'not-assessed',
  };
}

/** Stored as `39` (weeks) or `39+4` (weeks and days). */
function gestationOf(value: FindingValue | undefined): Gestation | null {
  if (typeof value !== 'string') return null;
  const [weeks, days] = value.split('+').map(Number);
  if (weeks === undefined) return null;
  return days === undefined ? { weeks } : { weeks, days };
}

function numberOf(value: FindingValue | undefined): number | null {
  return typeof value === 'number' ? value : null;
}

/** Marks that cannot both hold: two options of one finding. */
export function conflictOf(step: MarkStep, made: readonly string[]): readonly [Mark, Mark] | null {
  const byFinding = new Map<string, Mark>();
  for (const mark of step.marks) {
    if (!made.includes(mark.id) || mark.sets === null || step.furthest.includes(mark.sets.of)) continue;
    const other = byFinding.get(mark.sets.of);
    if (other !== undefined) return [other, mark];
    byFinding.set(mark.sets.of, mark);
  }
  return null;
}
