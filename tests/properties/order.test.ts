// A baby is the same baby in whatever order its findings were sent: a value sent early by its label or when it is asked, a
// region answered sooner or later.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gather } from '../../src/dialog/gather.ts';
import type { Answer } from '../../src/dialog/session.ts';
import { book, morning } from './any-dialog.ts';
import { anyPlan, examine, flow, markSteps, type Plan } from './planned-examination.ts';

/** What can be labelled and is read once: label, finding, and a few values of every meaning. */
const labelled: readonly (readonly [string, string, readonly string[]])[] = [
  ['T', 'temperature', ['34.2', '36.2', '36.8', '37.6', '38.4']],
  ['P', 'heart-rate', ['85', '132', '171', '190']],
  ['BW', 'birth-weight', ['1400', '2300', '3100', '4300']],
];
/** Steps that are always asked before those values are. */
const earlierSteps = ['danger', 'pregnancy', 'birth'];

const anyEarly = fc.tuple(
  ...labelled.map(([label, of, values]) =>
    fc.record({
      label: fc.constant(label),
      of: fc.constant(of),
      value: fc.constantFrom(...values),
      at: fc.constantFrom(...earlierSteps, null),
    }),
  ),
);

function sentAsSaid(
  plan: Plan,
  early: readonly { label: string; of: string; value: string; at: string | null }[],
): { asked: Plan; early: Plan } {
  const values = { ...plan.values, ...Object.fromEntries(early.map(({ of, value }) => [of, value])) };
  const byStep: Record<string, string> = {};
  // The weight is asked with the first question, so that only the two others can be early.
  for (const { label, value, at } of early) if (at !== null && label !== 'BW') byStep[at] = `${byStep[at] ?? ''} ${label}${value}`.trim();
  return { asked: { ...plan, values }, early: { ...plan, values, early: byStep } };
}

/** Marked differently in two regions, the region that is asked first has the say, and order matters by intent. */
function marksOneFindingTwice(answers: readonly Answer[]): boolean {
  const sets = answers.flatMap(({ step: id, marks = [] }) => {
    const step = markSteps.find((one) => one.id === id);
    return marks
      .flatMap((mark) => step?.marks.find((one) => one.id === mark)?.sets?.of ?? [])
      .filter((of, at, all) => all.indexOf(of) === at);
  });
  return new Set(sets).size < sets.length;
}

/** Answers to regions change places among themselves; values stay where they are. */
function shuffleRegions(answers: readonly Answer[], order: readonly number[]): Answer[] {
  const regions = answers.filter(({ marks }) => marks !== undefined);
  const dealt = regions.map((answer, at) => ({ answer, at: order[at] ?? 0 })).sort((one, two) => one.at - two.at);
  return answers.map((answer) => (answer.marks === undefined ? answer : (dealt.shift()?.answer ?? answer)));
}

describe('the order of what is sent', () => {
  it('does not change what a baby has: values early by label or when asked', () => {
    fc.assert(
      fc.property(anyPlan(), anyEarly, (plan, values) => {
        const plans = sentAsSaid(plan, values);
        const asked = examine(plans.asked);
        fc.pre(asked !== null);
        expect(examine(plans.early)?.interpretation).toEqual(asked?.interpretation);
      }),
      { numRuns: 50 },
    );
  });

  it('does not change what a baby has: regions answered in any order', () => {
    fc.assert(
      fc.property(anyPlan(), fc.array(fc.nat(), { minLength: 60, maxLength: 60 }), (plan, order) => {
        const examined = examine(plan);
        const answers = examined?.session.open?.answers ?? [];
        fc.pre(examined !== null && !marksOneFindingTwice(answers));
        const shuffled = shuffleRegions(answers, order);
        const { case: aCase } = gather([flow], { answers: shuffled }, book.findings, morning);
        expect(book.interpret(aCase)).toEqual(examined?.interpretation);
      }),
      { numRuns: 60 },
    );
  });
});
