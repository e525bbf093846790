// An examination with chosen findings: a plan says what is seen at each step, and the examination is answered as the plan
// says until it is finished. Next: danger-signs.test.ts, order.test.ts.

import fc from 'fast-check';
import type { Finding, Interpretation, NumberFinding } from '../../src/clinical/protocol.ts';
import type { Fact } from '../../src/dialog/facts.ts';
import type { Flow, MarkStep, Step } from '../../src/dialog/flow.ts';
import { conflictOf } from '../../src/dialog/gather.ts';
import { newSession, type Session } from '../../src/dialog/session.ts';
import { book, morning, positionOf, turnOf } from './any-dialog.ts';

export interface Plan {
  readonly sex: 'girl' | 'boy';
  /** Marks seen, as `step/mark`. */
  readonly seen: ReadonlySet<string>;
  /** Values other than the routine ones that an opened question is answered with, by finding. */
  readonly values: Readonly<Record<string, string | undefined>>;
  /** Sent along with the answer to a step, or alone before it: `T36.8`. */
  readonly early?: Readonly<Record<string, string>>;
}

export interface Examined {
  readonly session: Session;
  readonly interpretation: Interpretation;
  readonly facts: readonly Fact[];
  readonly messages: number;
}

export const flow = book.flows.get('first-day-exam') as Flow;
export const markSteps = flow.steps.filter((step): step is MarkStep => step.kind === 'mark');

/** Every mark of the flow, as `step/mark`, but those that only open another question. */
export const allMarks: readonly string[] = markSteps.flatMap((step) => step.marks.map((mark) => `${step.id}/${mark.id}`));

const enough = 90;

/** A soft spot that is sunken was felt. Asked in two lists, so the dialog takes both and the first of them stands. */
const contradiction = ['head/soft-spot=sunken', 'head-more/soft-spot=none-felt-with-ridge'];

export function contradicts(seen: ReadonlySet<string>): boolean {
  return contradiction.every((mark) => seen.has(mark));
}

/** Null: two of the marks cannot both be made. */
export function examine(plan: Plan): Examined | null {
  const seen = withOpened(plan.seen);
  if (markSteps.some((step) => conflictOf(step, marksOf(step, seen)) !== null) || contradicts(seen)) return null;
  const facts: Fact[] = [];
  const early = new Map(Object.entries(plan.early ?? {}));
  let turn = turnOf(newSession, 'BABY', morning);
  for (let messages = 1; messages < enough; messages += 1) {
    if (turn.session.open?.finishedAt !== undefined) {
      return { session: turn.session, interpretation: positionOf(turn.session, morning).interpretation, facts, messages };
    }
    const { next } = positionOf(turn.session, morning);
    const labelled = early.get(next.id);
    early.delete(next.id);
    turn = turnOf(turn.session, turn.session.doubt === undefined ? (labelled ?? answerTo(next, plan, seen, turn.session)) : '1', morning);
    facts.push(...turn.facts);
  }
  throw new Error(`The examination is not finished after ${enough} messages; it stands at "${positionOf(turn.session, morning).next.id}".`);
}

function answerTo(step: Step, plan: Plan, seen: ReadonlySet<string>, session: Session): string {
  switch (step.kind) {
    case 'result':
      return '2';
    case 'again':
      return valueFor(step.of, plan);
    case 'mark': {
      const marks = marksOf(step, seen);
      const digits = step.marks.flatMap((mark, at) => (marks.includes(mark.id) ? [String(at + 1)] : []));
      const more = step.more !== undefined && marks.includes(step.more) ? ['9'] : [];
      return digits.length + more.length === 0 ? '0' : [...digits, ...more].join('');
    }
    case 'read': {
      const { known } = positionOf(session, morning).gathered;
      const open = step.fields.filter((field) => !known.has(field.of) && !field.optional);
      return open
        .map((field) => (field.options.length > 0 ? optionFor(field.options, field.of, plan) : valueFor(field.of, plan)))
        .join(' ');
    }
  }
}

function marksOf(step: MarkStep, seen: ReadonlySet<string>): string[] {
  const marks = step.marks.filter((mark) => seen.has(`${step.id}/${mark.id}`)).map((mark) => mark.id);
  return step.more !== undefined && seen.has(`${step.id}/${step.more}`) ? [...marks, step.more] : marks;
}

/** A sign of the rest of a region is reached through the region's 9, and a question that a mark opens through that mark. */
function withOpened(seen: ReadonlySet<string>): ReadonlySet<string> {
  const all = new Set(seen);
  for (const wanted of seen) {
    const [id = ''] = wanted.split('/');
    for (const step of markSteps) {
      if (step.more === id) all.add(`${step.id}/${id}`);
      const opener = step.marks.find((mark) => mark.opens === id);
      if (opener !== undefined) all.add(`${step.id}/${opener.id}`);
    }
  }
  return all;
}

const babyValues: Readonly<Record<string, string>> = { born: '0430', gestation: '39', 'birth-weight': '3100' };
/** What a question that a mark opened is answered with, when the plan does not say: the least sick answer that fits the mark. */
const ownValues: Readonly<Record<string, string>> = { 'waters-broken-hours': '18', 'bag-and-mask-minutes': '1' };

function optionFor(options: readonly string[], of: string, plan: Plan): string {
  const wanted = of === 'sex' ? plan.sex : plan.values[of];
  const at = wanted === undefined ? -1 : options.indexOf(wanted);
  return String(Math.max(at, 0) + 1);
}

function valueFor(of: string, plan: Plan): string {
  if (of === 'sex') return plan.sex === 'girl' ? '1' : '2';
  return plan.values[of] ?? babyValues[of] ?? ownValues[of] ?? routineValue(book.findings.get(of));
}

/** The middle of the first routine band. */
function routineValue(finding: Finding | undefined): string {
  if (finding?.kind !== 'number' && finding?.kind !== 'count') return '-';
  const band = finding.bands.find((one) => one.routine);
  return band === undefined ? String(finding.low) : String(Number(((band.from + band.to) / 2).toFixed(finding.decimals)));
}

/** A value of each kind that a number may have: the beginning of each of its bands. */
function valuesOf(finding: NumberFinding): string[] {
  return finding.bands.map((band) =>
    String(Number(Math.min(band.from + (band.openFrom ? 10 ** -finding.decimals : 0), finding.high).toFixed(finding.decimals))),
  );
}

const readFields = flow.steps.flatMap((step) => (step.kind === 'read' ? step.fields : []));
const anyValues = fc.record(
  Object.fromEntries(
    readFields.flatMap(({ of, options }): [string, fc.Arbitrary<string>][] => {
      const finding = book.findings.get(of);
      if (options.length > 0 && of !== 'sex') return [[of, fc.constantFrom(...options)]];
      if (finding?.kind !== 'number' && finding?.kind !== 'count') return [];
      return [[of, fc.constantFrom(...valuesOf(finding))]];
    }),
  ),
  { requiredKeys: [] },
);

export function anyPlan(marks: readonly string[] = allMarks, maxSeen = 6): fc.Arbitrary<Plan> {
  return fc.record({
    sex: fc.constantFrom('girl' as const, 'boy' as const),
    seen: fc.uniqueArray(fc.constantFrom(...marks), { maxLength: maxSeen }).map((seen) => new Set(seen)),
    values: fc.oneof(fc.constant({}), anyValues),
  });
}
