// Urgency that is lowered by adding a sign: a baby who meets a rule, and who with one sign more of those that the rule reads comes out
// less urgent. Only a sign that stands under "none", "not" or "unless", or beside a normal value, can do that; every one of these is
// tried, for each rule and each alternative in it, the rest unknown and the rest normal. What is no sign by itself, such as a tight
// cord, may explain another one away; a measurement stands in place of touch. Next: safety-floor.ts, can-hold.ts.

import type { Condition } from '../../clinical/condition.ts';
import { judgedFacts } from '../../clinical/interpret.ts';
import type { Case, ClassificationRule, Finding, FindingValue, Gestation, Protocol, Sex } from '../../clinical/protocol.ts';
import type { Test } from '../../clinical/test-kinds.ts';
import type { Value } from '../../clinical/value.ts';
import { highestRank, routineRank } from '../../clinical/verdict.ts';
import { readCase } from '../read-case.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { judgesOf, type Left, type Search } from './can-hold.ts';
import { definitionsIn } from './definitions.ts';
import { eachAlternative } from './one-alternative.ts';

/** Errors, at the classification; once for each sign that lowers it. */
export function checkSignsNeverLower(protocol: Protocol, search: Search, sources: readonly SourceFile[], report: Report): void {
  const placeOf = definitionsIn(sources, 'classification');
  const rules = new Map(protocol.classifications.map((rule) => [rule.id, rule]));
  const isSign = signsAlone(protocol);
  for (const classification of protocol.classifications) {
    const told = new Set<string>();
    for (const { when, urgency } of classification.givenTo === 'any-baby' ? classification.rules : []) {
      if (urgency === 'routine') continue;
      const babies = new Map<string, readonly Case[]>();
      for (const { id, value } of lowering(when, classification, protocol, rules)) {
        if (told.has(id) || !isSign(id, value)) continue;
        const meeting = babies.get(id) ?? babiesWith(when, id, search, protocol);
        babies.set(id, meeting);
        const lowered = meeting.find((baby) => isLowered(baby, id, value, protocol));
        if (lowered === undefined) continue;
        told.add(id);
        const place = placeOf(classification.id);
        const what = `A baby who is "${classification.id}" comes out less urgent once "${id}" is ${String(value)} as well: ${JSON.stringify(lowered.findings)}.`;
        const fix = `Let the rule hold with "${id}" too, or give what is then found the same urgency.`;
        report(complain(place, place.range, 'floor/sign-lowers-urgency', what, 'More that is wrong would make a baby look better.', fix));
      }
    }
  }
}

/** Whether a baby on whom all else is normal is not well by it. */
function signsAlone(protocol: Protocol): (id: string, value: FindingValue) => boolean {
  const known = new Map<string, boolean>();
  return (id, value) => {
    const key = `${id} ${String(value)}`;
    const isSign = known.get(key) ?? rankOf({ findings: { [id]: value }, unlisted: 'normal' }, protocol) < routineRank;
    known.set(key, isSign);
    return isSign;
  };
}

interface Sign {
  readonly id: string;
  readonly value: FindingValue;
}

/** Signs that can make the rule fail, directly or through what it asks for by name. */
function lowering(
  when: Condition,
  { unless }: ClassificationRule,
  protocol: Protocol,
  rules: ReadonlyMap<string, ClassificationRule>,
): Sign[] {
  const signs = new Map<string, Sign>();
  const seen = new Set<string>();
  const note = (condition: Condition, isWanted: boolean): void => {
    switch (condition.kind) {
      case 'all':
      case 'any':
      case 'at-least':
        for (const part of condition.of) note(part, isWanted);
        return;
      case 'none':
        for (const part of condition.of) note(part, !isWanted);
        return;
      case 'not':
      case 'named':
        note(condition.of, condition.kind === 'not' ? !isWanted : isWanted);
        return;
      case 'given':
        for (const id of condition.classifications) {
          const rule = rules.get(id);
          if (rule === undefined || seen.has(`${id} ${isWanted}`)) continue;
          seen.add(`${id} ${isWanted}`);
          for (const one of rule.rules) note(one.when, isWanted);
          if (rule.unless !== undefined) note(rule.unless, !isWanted);
        }
        return;
      case 'given-before':
      case 'switch':
        return;
      default:
        for (const value of breaking(condition, isWanted, protocol))
          signs.set(`${condition.term} ${String(value)}`, { id: condition.term, value });
    }
  };
  note(when, true);
  if (unless !== undefined) note(unless, false);
  return [...signs.values()];
}

/** Values that are a sign, and by which the test is no longer what the rule wants. */
function breaking(test: Test, isWanted: boolean, protocol: Protocol): FindingValue[] {
  const finding = protocol.findingById.get(test.term);
  if (finding === undefined) return [];
  const [judge] = judgesOf(test, protocol);
  return signsOf(finding).filter((value) => judge?.holds(value) !== isWanted);
}

function signsOf(finding: Finding): FindingValue[] {
  if (finding.kind === 'sign') return finding.variant ? [] : [true];
  if (finding.kind === 'choice') return finding.options.slice(1).filter((option) => !finding.variantOptions.includes(option));
  const whole = (value: number): number => Number(value.toFixed(finding.decimals));
  return finding.bands.filter(({ routine }) => !routine).map(({ from, to }) => whole((from + to) / 2));
}

/** Babies who meet the rule, one for each alternative in it, on whom that finding is normal or was not looked for. */
function babiesWith(when: Condition, id: string, search: Search, protocol: Protocol): Case[] {
  const finding = protocol.findingById.get(id);
  const normal: Value[] = finding?.kind === 'choice' ? [undefined, finding.options[0]] : [undefined, false];
  const left: Left = new Map([[id, normal]]);
  return [when, ...eachAlternative(when)].flatMap((one) => {
    const found = search.first(one, left);
    if (found === null) return [];
    return (['not-assessed', 'normal'] as const).map((unlisted) => ({ ...babyOf(found, protocol), unlisted }));
  });
}

/** Where nothing need be known, nothing is. */
function babyOf(left: Left, protocol: Protocol): Case {
  const value = (term: string): Value => {
    const values = left.get(term) ?? [];
    return values.includes(undefined) ? undefined : values[0];
  };
  const number = (term: string): number | null => (typeof value(term) === 'number' ? (value(term) as number) : null);
  const findings = [...left.keys()].flatMap((id) =>
    protocol.findingById.has(id) && value(id) !== undefined ? [[id, value(id) as FindingValue] as const] : [],
  );
  const switches = [...left].flatMap(([term, values]) => (term.startsWith('switch ') ? [[term.slice(7), String(values[0])] as const] : []));
  return {
    ageHours: number('age'),
    sex: (value('sex') ?? null) as Sex | null,
    gestation: weeksOf(number('gestation')),
    birthWeightGrams: number('birth-weight') ?? number('class-weight'),
    weightGrams: number('weight'),
    findings: Object.fromEntries(findings),
    switches: Object.fromEntries(switches),
  };
}

const weeksOf = (weeks: number | null): Gestation | null => (weeks === null ? null : { weeks: Math.floor(weeks) });

/** How urgent the baby is by all that is given, 0 for the most. */
function rankOf(baby: Case, protocol: Protocol): number {
  return highestRank(judgedFacts(protocol, baby).facts.given);
}

const mostUrgent = 0;

function isLowered(baby: Case, id: string, value: FindingValue, protocol: Protocol): boolean {
  if (Object.keys(baby.findings).some((one) => protocol.findingById.get(one)?.insteadOf === id)) return false;
  const more: Case = { ...baby, findings: { ...baby.findings, [id]: value } };
  const rank = rankOf(more, protocol);
  return rank > mostUrgent && rank > rankOf(baby, protocol) && [baby, more].every((one) => readCase(one, protocol).kind === 'case');
}
