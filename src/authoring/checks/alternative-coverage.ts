// One sign among several of a rule, of a named condition or of what a finding is needed for, that no reference case rests on: taken
// out, it would be missed by none. Next: case-rests-on.ts; rule-coverage.ts, which asks the same of whole rules.

import type { Condition } from '../../clinical/condition.ts';
import type { ClassificationRule, Protocol, Urgency } from '../../clinical/protocol.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { isAtLeast } from './case-rests-on.ts';
import { definitionsIn } from './definitions.ts';
import { implies } from './implies.ts';
import type { JudgedCase } from './judged-cases.ts';
import { type Choosing, onlyWith, replacedIn, without } from './one-alternative.ts';

const why = 'An edit could take it out, and no sick baby would be missed by any case.';

/** Warnings, at the classification, the named condition or the finding. */
export function checkAlternativeCoverage(
  cases: readonly JudgedCase[],
  protocol: Protocol,
  sources: readonly SourceFile[],
  report: Report,
): void {
  const placeOf = definitionsIn(sources, 'classification');
  const covered = new Set(cases.flatMap(({ alternatives }) => [...alternatives]));
  for (const { owner, named, condition } of asked(protocol)) {
    for (const { part, number, choosing } of alternativesIn(condition)) {
      const { of } = choosing;
      if (covered.has(part) || !isMissed(part, choosing, protocol)) continue;
      const place = placeOf(owner);
      const what = `No reference case rests on alternative ${number} of ${of.length} in ${named} of "${owner}".`;
      const fix = 'Add a baby in whom it is the only one of them.';
      report({ ...complain(place, place.range, 'floor/alternative-not-covered', what, why, fix), severity: 'warning' });
    }
  }
}

interface Asked {
  readonly owner: string;
  /** As in "rule 2". */
  readonly named: string;
  readonly condition: Condition;
}

/** Of what only a well baby is given, nothing: no baby is sick by it. */
function asked(protocol: Protocol): Asked[] {
  const sick = protocol.classifications.filter(({ givenTo }) => givenTo === 'any-baby');
  const exceptions = sick.flatMap(({ id, unless }) =>
    unless === undefined ? [] : [{ owner: id, named: 'the exception', condition: unless }],
  );
  const conditions = [...sick.flatMap(rulesOf), ...protocol.needs.map(({ when }) => when), ...exceptions.map(({ condition }) => condition)];
  const used = new Set(conditions.flatMap(namesIn));
  return [
    ...sick.flatMap((rule) => rulesOf(rule).map((condition, at) => ({ owner: rule.id, named: `rule ${at + 1}`, condition }))),
    ...[...protocol.conditions].flatMap(([owner, condition]) => (used.has(owner) ? [{ owner, named: 'the definition', condition }] : [])),
    ...protocol.needs.map(({ finding, when }) => ({ owner: finding, named: 'what waits for it', condition: when })),
    ...exceptions,
  ];
}

const rulesOf = ({ rules, raised }: ClassificationRule): Condition[] => [...rules, ...raised].filter(isSick).map(({ when }) => when);
const isSick = ({ urgency }: { readonly urgency: Urgency }): boolean => urgency !== 'routine';

/** Names of the conditions that are asked positively. */
function namesIn(condition: Condition): string[] {
  if (condition.kind === 'named') return condition.besides.length > 0 ? [] : [condition.name, ...namesIn(condition.of)];
  return condition.kind === 'all' || condition.kind === 'any' || condition.kind === 'at-least' ? condition.of.flatMap(namesIn) : [];
}

interface Alternative {
  readonly part: Condition;
  /** From 1. */
  readonly number: number;
  readonly choosing: Choosing;
}

function alternativesIn(condition: Condition): Alternative[] {
  if (condition.kind !== 'all' && condition.kind !== 'any' && condition.kind !== 'at-least') return [];
  const { of } = condition;
  const choosing = condition as Choosing;
  const own = condition.kind === 'all' || of.length < 2 ? [] : of.map((part, at) => ({ part, number: at + 1, choosing }));
  return [...own, ...of.flatMap(alternativesIn)];
}

/** Whether some rule, or what a finding waits for, would be met by fewer babies without it; else others stand in for it everywhere. */
function isMissed(part: Condition, choosing: Choosing, { classifications, needs }: Protocol): boolean {
  const isNarrower = (when: Condition, others: readonly Condition[]): boolean => {
    const by = onlyWith(choosing, part);
    const only = replacedIn(when, choosing, by);
    return only !== when && !implies(only, { kind: 'any', of: [replacedIn(when, choosing, without(choosing, part)), ...others] });
  };
  return (
    needs.some(({ when }) => isNarrower(when, [])) ||
    classifications.some(({ unless }) => unless !== undefined && isNarrower(unless, [])) ||
    classifications.some(({ givenTo, rules, raised }) => {
      const sick = givenTo === 'any-baby' ? [...rules, ...raised].filter(isSick) : [];
      return sick.some((rule) => {
        const others = rules.filter((one) => one !== rule && isAtLeast(one.urgency, rule.urgency)).map(({ when }) => when);
        return isNarrower(rule.when, others);
      });
    })
  );
}
