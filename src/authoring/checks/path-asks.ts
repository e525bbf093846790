// What some path through a flow never asks although a rule of that path needs it. Each reference case is walked through each flow
// that can ask for all that the case rests on: steps whose guard its answers do not fulfil stay unasked, and if the baby then comes
// out below what the guideline says, a guard hides a question. Guards that are signed off are taken to hold (asked-when.ts).
// Next: safety-floor.ts, settable.ts.

import { FindingsAtHand, placesOf } from '../../clinical/findings-at-hand.ts';
import { interpret } from '../../clinical/interpret.ts';
import type { Case, FindingValue, Protocol } from '../../clinical/protocol.ts';
import { type Flow, type Guard, opensOf, type Step } from '../../dialog/flow.ts';
import type { Standing } from '../../dialog/lookup.ts';
import { guardsHold } from '../../dialog/next-step.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { belowFloor } from './below-floor.ts';
import { type Settable, settableIn } from './settable.ts';
import { stepsIn } from './step-places.ts';

/** Errors, at the step whose guard hides a question; once a step, with the first baby that it hides. */
export function checkPathsAsk(
  cases: readonly ReferenceCase[],
  flows: readonly Flow[],
  protocol: Protocol,
  signedOff: ReadonlySet<string>,
  sources: readonly SourceFile[],
  report: Report,
): void {
  for (const flow of flows) {
    const walked = prepare(flow, protocol, (step) => signedOff.has(`${flow.id} ${step}`));
    const told = new Set<string>();
    // A flow that adds to an examination knows what was found before.
    if (!walked.all.has('born') || walked.guarded.length === 0) continue;
    for (const one of cases) {
      const step = hidingStep(one, walked, protocol);
      if (step === null || told.has(step.id)) continue;
      told.add(step.id);
      const place = stepsIn(sources, flow.id)(step.id);
      const what = `Step "${step.id}" is not asked of this baby, and is needed: "${one.title}".`;
      const why = 'The baby would come out less urgent than the guideline says, because its sign is never asked for.';
      const fix =
        'Widen the guard of this step so that it holds for that baby too; or have it signed off under "asked-when" in questions.yaml.';
      report(complain(place, place.range, 'flow/path-never-asks', what, why, fix));
    }
  }
}

interface Walked {
  readonly all: Settable;
  /** What is asked of every baby. */
  readonly always: Settable;
  readonly guarded: readonly { readonly step: Step; readonly hiddenBy: Step; readonly adds: Settable }[];
}

/** A step that a mark opens is taken to be opened: the worker marks what she sees. It is as guarded as the step that opens it. */
function prepare({ steps }: Flow, { findingById }: Protocol, isSignedOff: (step: string) => boolean): Walked {
  const adds = (some: readonly Step[]): Settable => settableIn({ steps: some }, findingById);
  const openedBy = new Map(steps.flatMap((step) => opensOf(step).map((id) => [id, step] as const)));
  const guardOf = (step: Step | undefined): readonly Guard[] =>
    step === undefined ? [] : [...(isSignedOff(step.id) ? [] : step.onlyIf), ...(step.opened ? guardOf(openedBy.get(step.id)) : [])];
  /** The step itself, or the one before it whose guard it depends on. */
  const hiding = (step: Step): Step => {
    const opener = step.opened ? openedBy.get(step.id) : undefined;
    return step.onlyIf.length > 0 || opener === undefined ? step : hiding(opener);
  };
  const guarded = steps.filter((step) => step.kind !== 'result' && guardOf(step).length > 0);
  return {
    all: adds(steps),
    always: adds(steps.filter((step) => !guarded.includes(step))),
    guarded: guarded.map((step) => ({ step: { ...step, onlyIf: guardOf(step) }, hiddenBy: hiding(step), adds: adds([step]) })),
  };
}

/** A step that is left out for this baby, and without which it comes out too low. */
function hidingStep({ input, expected }: ReferenceCase, { all, always, guarded }: Walked, protocol: Protocol): Step | null {
  const needed = guarded.filter(({ adds }) =>
    Object.entries(input.findings).some(([of, value]) => isIn(adds, of, value) && !isIn(always, of, value)),
  );
  if (needed.length === 0) return null;
  const whole = seenThrough(input, [all]);
  let asked = [always];
  let left = needed;
  for (;;) {
    const seen = seenThrough(input, asked);
    if (sameFindings(seen, whole)) return null;
    const standing = standingOf(seen, protocol);
    const next = left.filter(({ step }) => guardsHold(step, standing));
    if (next.length === 0) break;
    asked = [...asked, ...next.map(({ adds }) => adds)];
    left = left.filter((one) => !next.includes(one));
  }
  if (belowFloor({ expected } as ReferenceCase, interpret(protocol, whole)).length > 0) return null;
  const below = belowFloor({ expected } as ReferenceCase, interpret(protocol, seenThrough(input, asked)));
  return below.length === 0 ? null : (left[0]?.hiddenBy ?? null);
}

/** The case as it is known when only this was asked. */
function seenThrough(input: Case, asked: readonly Settable[]): Case {
  const kept = Object.entries(input.findings).filter(([of, value]) => asked.some((one) => isIn(one, of, value)));
  return { ...input, findings: Object.fromEntries(kept) };
}

function isIn(settable: Settable, of: string, value: FindingValue): boolean {
  const values = settable.get(of);
  return values === 'any' || (values?.has(value) ?? false);
}

const sameFindings = (one: Case, other: Case): boolean => Object.keys(one.findings).length === Object.keys(other.findings).length;

function standingOf(seen: Case, protocol: Protocol): Standing {
  const fields = { sex: seen.sex, 'birth-weight': seen.birthWeightGrams, weight: seen.weightGrams };
  const known = new FindingsAtHand(placesOf(protocol.findingById));
  for (const [of, value] of Object.entries({ ...seen.findings, ...fields })) known.set(of, value ?? null);
  const none = new Set<string>();
  return {
    gathered: { case: { ...seen, findings: known }, known, answered: none, opened: none },
    interpretation: interpret(protocol, seen),
    mayInject: true,
  };
}
