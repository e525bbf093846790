// Rules that no reference case rests on: taken out or made less urgent, they would be missed by none. A case rests on a rule when it
// expects the classification and no other rule of it, met in that baby, makes it as urgent. Next: floor-coverage.ts, implies.ts.

import type { ClassificationRule, Protocol, Rule } from '../../clinical/protocol.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { isAtLeast } from './case-rests-on.ts';
import { definitionsIn } from './definitions.ts';
import { implies } from './implies.ts';
import type { JudgedCase } from './judged-cases.ts';

const why = 'An edit could take it out or make it less urgent, and no sick baby would be missed by any case.';

/** Warnings, at the classification. Of what only a well baby is given, nothing: no baby is sick by it. */
export function checkRuleCoverage(cases: readonly JudgedCase[], protocol: Protocol, sources: readonly SourceFile[], report: Report): void {
  const placeOf = definitionsIn(sources, 'classification');
  const covered = new Set(cases.flatMap(({ rules }) => rules));
  for (const classification of protocol.classifications) {
    if (classification.givenTo === 'routine-baby') continue;
    for (const [at, rule] of [...classification.rules, ...classification.raised].entries()) {
      if (covered.has(rule) || hasStandIn(rule, classification)) continue;
      const place = placeOf(classification.id);
      const rows = rule.rows.length === 0 ? '' : ` (${rule.rows.join(', ')})`;
      const what = `No reference case rests on rule ${at + 1} of "${classification.id}": ${rule.urgency}${rows}.`;
      const fix = `Add a baby who is "${classification.id}" by this rule alone.`;
      report({ ...complain(place, place.range, 'floor/rule-not-covered', what, why, fix), severity: 'warning' });
    }
  }
}

/** Others as urgent are met wherever this one is: it only adds its rows. */
function hasStandIn(rule: Rule, { rules, raised }: ClassificationRule): boolean {
  const others = (raised.includes(rule) ? [...rules, ...raised] : rules).filter(
    (other) => other !== rule && isAtLeast(other.urgency, rule.urgency),
  );
  return implies(rule.when, { kind: 'any', of: others.map(({ when }) => when) });
}
