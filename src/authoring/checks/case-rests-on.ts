// What a reference case rests on: the rules, and the alternatives inside them, without which it would not come out as it expects.
// Next: rested-on.ts, for one condition; rule-coverage.ts and alternative-coverage.ts, for what no case rests on.

import type { Condition } from '../../clinical/condition.ts';
import type { JudgedFacts } from '../../clinical/interpret.ts';
import { judgesFor } from '../../clinical/program.ts';
import {
  type ClassificationRule,
  type Interpretation,
  type Protocol,
  type Rule,
  type Urgency,
  urgencies,
} from '../../clinical/protocol.ts';
import { metOf } from '../../clinical/verdict.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';
import { restedOnAmong } from './rested-on.ts';

/** Rules that are met, also those that only raise the urgency, where no other that is met makes the classification as urgent as is expected. */
export function rulesRestedOn({ expected }: ReferenceCase, { program, facts }: JudgedFacts): Rule[] {
  return expected.classifications.flatMap(({ id, urgency }) => {
    const prepared = program.rules.find(({ of }) => of.rule.id === id)?.of;
    if (prepared === undefined) return [];
    const metFirst = metOf(prepared.rules, facts);
    if (metFirst.length === 0) return [];
    const met = [...metFirst, ...metOf(prepared.raised, facts)].map(({ rule }) => rule);
    return met.filter((rule) => !met.some((other) => other !== rule && isAtLeast(other.urgency, urgency)));
  });
}

/**
 * Alternatives without which a classification, the baby's urgency or what is asked for would not be as is expected, or something would
 * be given that is not.
 */
export function alternativesRestedOn({ input, expected }: ReferenceCase, { facts }: JudgedFacts, protocol: Protocol): Set<Condition> {
  const judge = judgesFor(protocol, input.switches);
  const holds = (condition: Condition): boolean => judge(condition).holds(facts);
  const given = facts.given.flatMap(({ number }) => protocol.classifications[number] ?? []);
  const urgent = (rule: ClassificationRule, wanted: Interpretation['urgency'] | null): Condition[] => {
    const isMet = rule.rules.some(({ when }) => holds(when));
    return [...rule.rules, ...(isMet ? rule.raised : [])].filter((one) => isAtLeast(one.urgency, wanted)).map(({ when }) => when);
  };
  const rested = expected.classifications.flatMap(({ id, urgency }) => {
    const rule = given.find((one) => one.id === id);
    return rule === undefined ? [] : [...restedOnAmong(urgent(rule, urgency), 1, holds)];
  });
  const baby = restedOnAmong(
    given.flatMap((rule) => urgent(rule, expected.urgency)),
    1,
    holds,
  );
  const missing = expected.missing.flatMap((id) => [
    ...restedOnAmong(
      protocol.needs.flatMap(({ finding, when }) => (finding === id ? [when] : [])),
      1,
      holds,
    ),
  ]);
  const exceptions = expected.not.flatMap((id) => {
    const rule = protocol.classifications.find((one) => one.id === id);
    const isKeptAway = rule?.unless !== undefined && rule.rules.some(({ when }) => holds(when));
    return isKeptAway ? [...restedOnAmong([rule.unless], 1, holds)] : [];
  });
  return new Set([...rested, ...baby, ...missing, ...exceptions]);
}

/** Anything is at least what is not wanted to be anything. */
export function isAtLeast(one: Urgency, wanted: Interpretation['urgency'] | null): boolean {
  return wanted === null || (wanted !== 'incomplete' && urgencies.indexOf(one) <= urgencies.indexOf(wanted));
}
