// The reference cases, each judged once for all that is asked of them. Of the judging only what a check needs is kept: the facts of
// a thousand cases would be most of what a check holds in memory. Next: safety-floor.ts, rule-coverage.ts, alternative-coverage.ts.

import type { Condition } from '../../clinical/condition.ts';
import { interpretationOf, judgedFacts } from '../../clinical/interpret.ts';
import type { Protocol, Rule } from '../../clinical/protocol.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';
import { type Below, belowFloor, givenToo } from './below-floor.ts';
import { alternativesRestedOn, rulesRestedOn } from './case-rests-on.ts';

export interface JudgedCase {
  readonly case: ReferenceCase;
  /** What came out lower than expected. */
  readonly below: readonly Below[];
  /** What was given that it says it is not. */
  readonly tooMuch: readonly string[];
  readonly rules: readonly Rule[];
  readonly alternatives: ReadonlySet<Condition>;
}

export function judgeCases(cases: readonly ReferenceCase[], protocol: Protocol): JudgedCase[] {
  return cases.map((one) => {
    const judged = judgedFacts(protocol, one.input);
    const rules = rulesRestedOn(one, judged);
    const alternatives = alternativesRestedOn(one, judged, protocol);
    const result = interpretationOf(judged);
    return { case: one, rules, alternatives, below: belowFloor(one, result), tooMuch: givenToo(one, result) };
  });
}
