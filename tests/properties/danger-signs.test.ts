// More that is wrong never makes a baby look better: with the real flow and protocol, one more sign in an otherwise identical
// examination does not lower the urgency, and what makes a baby urgent always reaches the nurse.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { urgencies } from '../../src/clinical/protocol.ts';
import { allMarks, anyPlan, contradicts, examine, flow, markSteps, type Plan } from './planned-examination.ts';

/** From the least urgent; an examination that is not complete is not called urgent either. */
const rank = (urgency: string): number => ['incomplete', ...[...urgencies].reverse()].indexOf(urgency);

const sexOf = (mark: string): Plan['sex'] => (mark.startsWith('boy') ? 'boy' : 'girl');
const alone = (mark: string): Plan => ({ sex: sexOf(mark), seen: new Set([mark]), values: {} });
const well = examine({ sex: 'girl', seen: new Set(), values: {} });

/** Marks that make a baby urgent on whom all else is normal. */
const urgentAlone = allMarks.filter((mark) => examine(alone(mark))?.interpretation.urgency === 'urgent');
const dangerMarks = markSteps.filter((step) => step.id === 'danger').flatMap((step) => step.marks.map((mark) => `danger/${mark.id}`));

/** Marks of one finding that stand in two regions, so that the second answer could undo the first. */
const samePairs = allMarks.flatMap((one, at) =>
  allMarks.slice(at + 1).flatMap((two): [string, string][] => {
    const isOne = setBy(one) !== null && setBy(one) === setBy(two) && regionOf(one) !== regionOf(two);
    return isOne && !(one + two).match(/girl.*boy/) && !contradicts(new Set([one, two])) ? [[one, two]] : [];
  }),
);

describe('a sign', () => {
  it('is compared with a baby on whom all is normal', () => {
    expect(well?.interpretation.urgency).toBe('routine');
    expect(well?.facts.filter((fact) => fact.kind === 'alert')).toEqual([]);
  });

  it.each(dangerMarks)('of the danger question, %s, is urgent by itself', (mark) => {
    expect(urgentAlone).toContain(mark);
  });

  it.each(urgentAlone)('%s reaches the nurse as an alert that tells of it', (mark) => {
    const alerts = examine(alone(mark))?.facts.filter((fact) => fact.kind === 'alert') ?? [];
    expect(alerts).toHaveLength(1);
    const set = setBy(mark);
    const told = alerts.flatMap((fact) =>
      fact.kind === 'alert' ? fact.interpretation.classifications.filter((one) => fact.news.includes(one.id)) : [],
    );
    if (set !== null) expect(told.flatMap((one) => one.because.map((because) => because.finding))).toContain(set);
  });

  it.each(samePairs)('of one finding in two regions, %s and %s, leaves the baby as urgent as the worse of them', (one, two) => {
    const both = examine({
      ...alone(one),
      sex: [one, two].some((mark) => sexOf(mark) === 'boy') ? 'boy' : 'girl',
      seen: new Set([one, two]),
    });
    const worse = Math.max(
      rank(examine(alone(one))?.interpretation.urgency ?? ''),
      rank(examine(alone(two))?.interpretation.urgency ?? ''),
    );
    expect(rank(both?.interpretation.urgency ?? '')).toBeGreaterThanOrEqual(worse);
  });

  it('more never lowers the urgency of an examination', () => {
    fc.assert(
      fc.property(anyPlan(), fc.constantFrom(...allMarks), (plan, more) => {
        const before = examine(plan);
        const after = examine({ ...plan, seen: new Set([...plan.seen, more]) });
        fc.pre(before !== null && after !== null);
        expect(rank(after?.interpretation.urgency ?? '')).toBeGreaterThanOrEqual(rank(before?.interpretation.urgency ?? ''));
      }),
      { numRuns: 150 },
    );
  });

  it('that is urgent leads to an alert whatever else was found', () => {
    fc.assert(
      fc.property(anyPlan(), fc.constantFrom(...urgentAlone), (plan, urgent) => {
        const examined = examine({ ...plan, sex: sexOf(urgent), seen: new Set([...plan.seen, urgent]) });
        fc.pre(examined !== null);
        expect(examined?.facts.filter((fact) => fact.kind === 'alert').length).toBeGreaterThan(0);
      }),
      { numRuns: 60 },
    );
  });
});

function regionOf(mark: string): string {
  return mark.slice(0, mark.indexOf('/'));
}

/** The finding that a mark sets; null when it only opens a question. */
function setBy(mark: string): string | null {
  const step = flow.steps.find((one) => one.id === regionOf(mark));
  const found = step?.kind === 'mark' ? step.marks.find((one) => `${step.id}/${one.id}` === mark) : undefined;
  return found?.sets?.of ?? null;
}
