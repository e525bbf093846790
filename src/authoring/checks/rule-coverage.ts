// Rules that no reference case rests on: taken out or made less urgent, they would be missed by none. A case rests on a rule when it
// expects the classification and no other rule of it, met in that baby, makes it as urgent. Next: floor-coverage.ts, implies.ts.

import type { ClassificationRule, Protocol, Rule, Urgency } from '../../clinical/protocol.ts';
import { urgencies } from '../../clinical/protocol.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { definitionsIn } from './definitions.ts';
import { implies } from './implies.ts';
import { judgedOnce } from './judged-cases.ts';

const why = 'An edit could take it out or make it less urgent, and no sick baby would be missed by any case.';

/** Warnings, at the classification. Of what only a well baby is given, nothing: no baby is sick by it. */
export function checkRuleCoverage(
  cases: readonly ReferenceCase[],
  protocol: Protocol,
  sources: readonly SourceFile[],
  report: Report,
): void {
  const placeOf = definitionsIn(sources, 'classification');
  const covered = new Set(cases.flatMap((one) => restedOn(one, protocol)));
  for (const classification of protocol.classifications) {
    if (classification.givenTo === 'routine-baby') continue;
    for (const [at, rule] of classification.rules.entries()) {
      if (covered.has(rule) || hasStandIn(rule, classification)) continue;
      const place = placeOf(classification.id);
      const rows = rule.rows.length === 0 ? '' : ` (${rule.rows.join(', ')})`;
      const what = `No reference case rests on rule ${at + 1} of "${classification.id}": ${rule.urgency}${rows}.`;
      const fix = `Add a baby who is "${classification.id}" by this rule alone.`;
      report({ ...complain(place, place.range, 'floor/rule-not-covered', what, why, fix), severity: 'warning' });
    }
  }
}

const isAsUrgent = (one: Urgency, other: Urgency): boolean => urgencies.indexOf(one) <= urgencies.indexOf(other);

/** Rules without which the case would not come out as it expects. */
function restedOn({ input, expected }: ReferenceCase, protocol: Protocol): Rule[] {
  const { program, facts } = judgedOnce(protocol, input);
  return expected.classifications.flatMap(({ id, urgency }) => {
    const prepared = program.classifications.find(({ rule }) => rule.id === id);
    const met = (prepared?.rules ?? []).filter(({ when }) => when.holds(facts)).map(({ rule }) => rule);
    return met.filter((rule) => !met.some((other) => other !== rule && (urgency === null || isAsUrgent(other.urgency, urgency))));
  });
}

/** Others as urgent are met wherever this one is: it only adds its rows. */
function hasStandIn(rule: Rule, { rules }: ClassificationRule): boolean {
  const others = rules.filter((other) => other !== rule && isAsUrgent(other.urgency, rule.urgency));
  return implies(rule.when, { kind: 'any', of: others.map(({ when }) => when) });
}
