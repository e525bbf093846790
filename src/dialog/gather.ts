// From the answers of an examination to the case that the protocol interprets. What was marked holds; what a region's
// answer leaves unmarked is normal (unmarked.ts); what was not asked stays unknown. A default never overwrites what was seen.

import type { CaseAtHand } from '../clinical/any-case.ts';
import { bandOf } from '../clinical/bands.ts';
import { FindingsAtHand, type Placed, placesOf } from '../clinical/findings-at-hand.ts';
import type { Case, Finding, FindingValue, Gestation, NumberFinding, Sex } from '../clinical/protocol.ts';
import { babyFields, type Flow, type Mark, type MarkStep, type Step } from './flow.ts';
import { givenBefore, previousWeight } from './looks-before.ts';
import { gestationFrom, isDatedGestation } from './readings/dated-gestation.ts';
import type { Answer, Examination } from './session.ts';
import { prepareFlow, type UnmarkedRegion } from './unmarked.ts';

export interface Gathered {
  readonly case: CaseAtHand;
  /** Finding or field -> what is held for it; a key with null was asked and cannot be had. */
  readonly known: Pick<FindingsAtHand, 'get' | 'has' | 'entries'>;
  /** What the look that is going on has answered; in the first look, all that is known. */
  readonly answered: HasNames;
  /** Steps opened by a mark of the look that is going on. */
  readonly opened: ReadonlySet<string>;
}

/** Findings and fields by name. */
type HasNames = Pick<ReadonlySet<string>, 'has'>;

const minutesPerHour = 60;
const minute = 60_000;

/**
 * What all looks at a baby say together: what a later look answers stands in place of what an earlier one found, and readings
 * are added to the readings before them. Never throws: an answer to a step that the flow no longer has keeps its values.
 *
 * Takes    flows: the flow of each look, the examination's first.
 */
export function gather(
  flows: readonly Flow[],
  examination: Pick<Examination, 'answers' | 'before'>,
  findings: ReadonlyMap<string, Finding>,
  now: number,
): Gathered {
  const known = new FindingsAtHand(placesOf(findings));
  let look: Look = { answered: known, opened: new Set() };
  for (const [at, flow] of flows.entries()) {
    const answers = examination.answers.filter((answer) => (answer.look ?? 0) === at);
    look = takeLook(flow, answers, known, findings, at === 0);
  }
  const { before } = examination;
  if (before === undefined) return { case: caseOf(known, now), known, ...look };
  if (look.answered.has('weight')) for (const [of, value] of Object.entries(previousWeight(before, now))) known.set(of, value);
  const again = givenBefore(before, look.answered, now);
  return { case: { ...caseOf(known, now), ...(again === undefined ? {} : { givenBefore: again }) }, known, ...look };
}

interface Look {
  readonly answered: HasNames;
  readonly opened: ReadonlySet<string>;
}

function takeLook(
  flow: Flow,
  answers: readonly Answer[],
  known: FindingsAtHand,
  findings: ReadonlyMap<string, Finding>,
  isFirst: boolean,
): Look {
  // In the first look what is known and what was answered are the same.
  const ofThisLook = isFirst ? null : new Set<string>();
  const answered: HasNames = ofThisLook ?? known;
  const opened = new Set<string>();
  const { steps, unmarked } = prepareFlow(flow, findings);
  const markedIn = new Map<string, string>();
  for (const answer of answers) {
    for (const [of, value] of Object.entries(answer.values ?? {})) {
      hold(known, of, value, findings);
      ofThisLook?.add(of);
    }
    if (steps.get(answer.step)?.kind === 'result') for (const step of answer.marks ?? []) opened.add(step);
    for (const { of, value, opens } of marksOf(steps.get(answer.step), answer, findings)) {
      if (opens !== undefined) opened.add(opens);
      // Two regions that mark one finding differently: the first stands, for dangers are asked first.
      if (of === undefined || (markedIn.get(of) ?? answer.step) !== answer.step) continue;
      markedIn.set(of, answer.step);
      known.set(of, value);
      ofThisLook?.add(of);
    }
  }
  for (const answer of answers) {
    const step = steps.get(answer.step);
    if (step?.kind !== 'mark' || answer.marks === undefined || answer.seal !== step.seal) continue;
    const says = saidUnmarked(unmarked.get(step), answer.marks);
    if (ofThisLook === null) known.setUnlessHeld(says);
    else setUnlessAnswered(known, ofThisLook, says);
  }
  return { answered, opened };
}

function saidUnmarked(region: UnmarkedRegion | undefined, marks: readonly string[]): readonly Placed[] {
  if (region === undefined) return [];
  return marks.length === 0 ? region.all : region.each.flatMap(({ mark, says }) => (marks.includes(mark) ? [] : says));
}

/** What an earlier look found gives way to what this one says. */
function setUnlessAnswered(known: FindingsAtHand, answered: Set<string>, says: readonly Placed[]): void {
  for (const { of, value } of says) {
    if (answered.has(of)) continue;
    known.set(of, value);
    answered.add(of);
  }
}

/** A finding that repeats keeps its readings in order, as many as may be held; any other keeps the last value given. */
function hold(known: FindingsAtHand, of: string, value: FindingValue, findings: ReadonlyMap<string, Finding>): void {
  const before = known.get(of);
  const finding = findings.get(of);
  const repeats = finding !== undefined && (finding.kind === 'number' || finding.kind === 'count') && finding.readings > 1;
  if (value === null && before !== undefined && before !== null) return;
  if (!repeats || value === null) {
    known.set(of, value);
    return;
  }
  const readings = [...(Array.isArray(before) ? (before as number[]) : []), value as number];
  if (readings.length > finding.readings) {
    const passing = readings.slice(0, -1).findIndex((reading) => !standsForGood(reading, finding));
    readings.splice(Math.max(0, passing), 1);
  }
  known.set(of, readings);
}

/** A reading in a band that holds whatever is read later, such as a fever, is never pushed out by later ones. */
function standsForGood(reading: number, finding: NumberFinding): boolean {
  return finding.holds.includes(bandOf(reading, finding.bands)?.id ?? '');
}

interface Marked {
  readonly of?: string;
  readonly value: FindingValue;
  readonly opens?: string;
}

/** What the marks of an answer say, in the order made; those that an edit took out of the step since keep what they said. */
function marksOf(step: Step | undefined, answer: Answer, findings: ReadonlyMap<string, Finding>): Marked[] {
  const isRegion = step?.kind === 'mark';
  return (answer.marks ?? []).map((id): Marked => {
    if (isRegion && id === step.more) return { value: null, opens: id };
    const mark = isRegion ? step.marks.find((one) => one.id === id) : undefined;
    const sets = mark === undefined ? setsOfRetiredMark(id, findings) : mark.sets;
    return { value: null, ...sets, ...(mark?.opens === undefined ? {} : { opens: mark.opens }) };
  });
}

/** The name of a mark carries its finding and option: `grunting`, `tone=floppy`, `pustule-count=3`. Null: it only opened a step. */
export function setsOfRetiredMark(id: string, findings: ReadonlyMap<string, Finding>): { of: string; value: FindingValue } | null {
  const [of = '', option] = id.split('=');
  const kind = findings.get(of)?.kind;
  if (option === undefined) return kind === 'sign' ? { of, value: true } : null;
  if (kind === 'number' || kind === 'count') return { of, value: Number(option) };
  return kind === 'choice' || isBabyField.has(of) ? { of, value: option } : null;
}

const isBabyField: ReadonlySet<string> = new Set(babyFields);

/** The case as it is written down. */
export function writtenCase({ findings, ...rest }: CaseAtHand): Case {
  return { ...rest, findings: Object.fromEntries(findings.entries().filter(([of]) => !isBabyField.has(of))) };
}

function caseOf(known: FindingsAtHand, now: number): CaseAtHand {
  const born = known.get('born');
  return {
    ageHours: typeof born === 'number' ? (now / minute - born) / minutesPerHour : null,
    sex: (known.get('sex') ?? null) as Sex | null,
    gestation: gestationOf(known.get('gestation'), born),
    birthWeightGrams: numberOf(known.get('birth-weight')),
    weightGrams: numberOf(known.get('weight')),
    findings: known,
    unlisted: 'not-assessed',
  };
}

/** Stored as `39` (weeks), `39+4` (weeks and days), or the date that it follows from once the birth is known. */
function gestationOf(value: FindingValue | undefined, born: FindingValue | undefined): Gestation | null {
  if (typeof value !== 'string') return null;
  if (isDatedGestation(value)) return typeof born === 'number' ? gestationFrom(value, born) : null;
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
