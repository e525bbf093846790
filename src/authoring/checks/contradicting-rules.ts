// Classifications that contradict each other: the very same baby is told two urgencies by one classification or by one family, is
// called a normal variant and sick by the same sign, or is told nothing because two pieces of advice silence each other.
// Next: implies.ts; what no baby can have at once is said in contradictions.yaml.

import type { Advice, ClassificationRule, Protocol, Rule } from '../../clinical/protocol.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { keyOf } from './condition-key.ts';
import { definitionsIn } from './definitions.ts';
import { implies } from './implies.ts';

/** Errors, at the classification or the advice that stands later. */
export function checkContradictions(protocol: Protocol, sources: readonly SourceFile[], report: Report): void {
  const placeOf = definitionsIn(sources, 'classification');
  const tell = (owner: string, code: string, what: string, why: string, fix: string): void => {
    const place = placeOf(owner);
    report(complain(place, place.range, `protocol/${code}`, what, why, fix));
  };
  for (const [one, other] of pairsIn(protocol.classifications)) {
    const pair = `"${one.of.id}" says ${one.rule.urgency}, and "${other.of.id}" ${other.rule.urgency}`;
    const why = 'The worker would be told both, and do the one that is easier.';
    tell(other.of.id, 'two-urgencies', `Of the same baby ${pair}.`, why, 'Give both rules one urgency, or tell the babies apart.');
  }
  for (const { id, rules } of protocol.classifications.filter(isOfVariants)) {
    for (const { when } of rules) {
      const sick = protocol.classifications.find((other) =>
        other.rules.some((rule) => rule.urgency !== 'routine' && implies(when, rule.when)),
      );
      if (sick === undefined) continue;
      const what = `Whoever is "${id}" by one of its rules is "${sick.id}" as well.`;
      tell(
        id,
        'normal-and-sick',
        what,
        'The mother would be told that the sign is normal, and that the baby is ill.',
        'Take the sign out of one of the two.',
      );
    }
  }
  for (const { key, silences } of protocol.advice) {
    const other = protocol.advice.find((one) => silences.includes(one.key) && silencesAgain(one, key));
    if (other === undefined || other.key < key) continue;
    const what = `"${key}" and "${other.key}" silence each other.`;
    tell(
      key,
      'advice-silences-both',
      what,
      'Where both are due, the worker would be told neither.',
      'Let only the more important one silence the other.',
    );
  }
}

const silencesAgain = ({ silences }: Advice, key: string): boolean => silences.includes(key);

/** Rules that are only there to name what is normal. */
const isOfVariants = ({ givenTo, rules }: ClassificationRule): boolean =>
  givenTo === 'any-baby' && rules.every(({ urgency }) => urgency === 'routine');

interface Told {
  readonly of: ClassificationRule;
  readonly rule: Rule;
}

/** Rules of one family with the very same condition and another urgency. */
function pairsIn(classifications: readonly ClassificationRule[]): (readonly [Told, Told])[] {
  const byCondition = new Map<string, Told[]>();
  for (const of of classifications.filter(({ givenTo }) => givenTo === 'any-baby'))
    for (const rule of of.rules) {
      const key = `${of.family} ${keyOf(rule.when)} ${of.unless === undefined ? '' : keyOf(of.unless)}`;
      byCondition.set(key, [...(byCondition.get(key) ?? []), { of, rule }]);
    }
  return [...byCondition.values()].flatMap(([first, ...others]) =>
    others.flatMap((other) => (first === undefined || first.rule.urgency === other.rule.urgency ? [] : [[first, other] as const])),
  );
}
