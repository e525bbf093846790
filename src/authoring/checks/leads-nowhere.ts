// A mark that leads nowhere: a worker sends it, no rule, no guard and no advice asks for it, and it is not named as a normal variant
// either. And the other way about: a finding that a rule waits for and no flow asks. Next: settable.ts, possible-values.ts.

import type { Condition } from '../../clinical/condition.ts';
import { parts, termIn } from '../../clinical/condition-parts.ts';
import { normalValue } from '../../clinical/normal-value.ts';
import type { Finding, FindingValue, Protocol } from '../../clinical/protocol.ts';
import type { Test } from '../../clinical/test-kinds.ts';
import { type Flow, guardConditions, type Mark } from '../../dialog/flow.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { judgesOf } from './can-hold.ts';
import { definitionsIn } from './definitions.ts';
import { conditionsOf } from './possible-values.ts';
import { settableIn } from './settable.ts';
import { stepsIn } from './step-places.ts';

/** Errors, at the step. */
export function checkLeadsSomewhere(
  flows: readonly Flow[],
  protocol: Protocol,
  decideNothing: ReadonlySet<string>,
  sources: readonly SourceFile[],
  report: Report,
): void {
  const tests = testsIn([...conditionsOf(protocol), ...flows.flatMap(guardConditions)]);
  const vials = new Set(protocol.doses.map(({ vial }) => vial));
  const leads = (of: string, value: FindingValue): boolean => {
    const finding = protocol.findingById.get(of);
    if (finding === undefined || vials.has(of) || decideNothing.has(of) || isVariant(finding, value)) return true;
    return (tests.get(of) ?? []).some((test) =>
      judgesOf(test, protocol).some((judge) => judge.holds(value) !== judge.holds(normalValue(finding) ?? null)),
    );
  };
  for (const { id, steps } of flows) {
    for (const step of steps) {
      const idle = step.kind === 'mark' ? step.marks.filter((mark) => !leadsOn(mark, leads)) : [];
      for (const mark of idle) {
        const place = stepsIn(sources, id)(step.id);
        const what = `"${mark.id}" in step "${step.id}" leads nowhere: no rule asks for it, and it is not marked as a normal variant.`;
        const why = 'The worker would send it and be told nothing, as if it were well.';
        const fix = `Write a rule for it, mark it "variant: yes" in findings.yaml, or list it under "decide-nothing" in questions.yaml.`;
        report(complain(place, place.range, 'flow/mark-leads-nowhere', what, why, fix));
      }
    }
  }
}

/** Errors, at the finding. */
export function checkAskedSomewhere(
  flows: readonly Flow[],
  protocol: Protocol,
  inNoFlow: ReadonlySet<string>,
  sources: readonly SourceFile[],
  report: Report,
): void {
  const placeOf = definitionsIn(sources);
  const asked = new Set(flows.flatMap((flow) => [...settableIn(flow, protocol.findingById).keys()]));
  const tests = testsIn(protocol.classifications.flatMap(({ rules, raised }) => [...rules, ...raised].map(({ when }) => when)));
  for (const { id } of protocol.findings) {
    if (asked.has(id) || inNoFlow.has(id) || !tests.has(id)) continue;
    const place = placeOf(id);
    const what = `A rule asks for "${id}", and no flow asks the worker for it.`;
    const why = 'Whatever that rule is to find could never be found in an examination.';
    report(
      complain(
        place,
        place.range,
        'protocol/never-asked',
        what,
        why,
        'Ask for it in a flow, or list it under "in-no-flow" in questions.yaml.',
      ),
    );
  }
}

function leadsOn({ sets, opens }: Mark, leads: (of: string, value: FindingValue) => boolean): boolean {
  return opens !== undefined || sets === null || leads(sets.of, sets.value);
}

function isVariant(finding: Finding, value: FindingValue): boolean {
  if (finding.kind === 'sign') return finding.variant;
  return finding.kind === 'choice' && finding.variantOptions.includes(String(value));
}

/** By term: each test of it, wherever it stands. */
function testsIn(conditions: readonly Condition[]): Map<string, Test[]> {
  const tests = new Map<string, Test[]>();
  const seen = new Set<Condition>();
  const note = (condition: Condition): void => {
    if (seen.has(condition)) return;
    seen.add(condition);
    for (const term of termIn(condition)) tests.set(term, [...(tests.get(term) ?? []), condition as Test]);
    parts(condition).forEach(note);
  };
  conditions.forEach(note);
  return tests;
}
