// What can never come about: a rule that no baby can meet, one of several signs in it that can never be the one, a guard that no
// answers fulfil. Such a line looks like a safeguard and is none. Next: can-hold.ts, one-alternative.ts.

import type { Condition } from '../../clinical/condition.ts';
import type { Protocol } from '../../clinical/protocol.ts';
import type { Value } from '../../clinical/value.ts';
import { type Flow, type Guard, isGuardField } from '../../dialog/flow.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { Search } from './can-hold.ts';
import { definitionsIn } from './definitions.ts';
import { eachAlternative } from './one-alternative.ts';
import type { PossibleValues } from './possible-values.ts';
import { settableIn } from './settable.ts';
import { stepsIn } from './step-places.ts';

const fix = 'Write a condition that some baby can meet, or take it out.';

/** Errors, at the classification or the named condition. */
export function checkRulesCanHold(protocol: Protocol, search: Search, sources: readonly SourceFile[], report: Report): void {
  const placeOf = definitionsIn(sources, 'classification');
  const check = (owner: string, condition: Condition, named: string): void => {
    const fault = faultIn(condition, search);
    if (fault === null) return;
    const place = placeOf(owner);
    const what = `${named} of "${owner}" ${fault}.`;
    report(complain(place, place.range, 'protocol/never-holds', what, 'It looks like a safeguard, and no baby is found by it.', fix));
  };
  for (const { id, rules, raised, unless } of protocol.classifications) {
    for (const [at, { when }] of rules.entries()) check(id, when, `Rule ${at + 1}`);
    for (const [at, { when }] of raised.entries()) check(id, when, `Raising rule ${at + 1}`);
    if (unless !== undefined) check(id, unless, '"unless"');
  }
  for (const [name, condition] of protocol.conditions) check(name, condition, 'The definition');
  for (const { finding, when } of protocol.needs) check(finding, when, 'The need');
}

/** Errors, at the step. Takes    possible: what can be known of any baby. */
export function checkGuardsCanHold(
  flow: Flow,
  protocol: Protocol,
  possible: PossibleValues,
  sources: readonly SourceFile[],
  report: Report,
): void {
  const { id, steps } = flow;
  const { findingById } = protocol;
  const own = possibleIn(flow, possible, findingById);
  const search = new Search(protocol, own, (term) => (findingById.has(term) ? own : possible)(term));
  for (const step of steps) {
    const faults = step.onlyIf.flatMap(conditionIn).flatMap((condition) => faultIn(condition, search) ?? []);
    for (const fault of faults) {
      const place = stepsIn(sources, id)(step.id);
      const what = `The guard of step "${step.id}" ${fault}.`;
      const why = 'What the step asks would never be asked by it, whatever the worker answers.';
      report(complain(place, place.range, 'flow/guard-never-holds', what, why, 'Ask for what it waits for in this flow, or take it out.'));
    }
  }
}

const conditionIn = (guard: Guard): Condition[] => (guard.kind === 'condition' ? [guard.condition] : []);

/** Takes    condition: a rule or a guard. Returns what is wrong with it, as the end of a sentence. */
function faultIn(condition: Condition, search: Search): string | null {
  if (!search.canHold(condition)) return 'can never hold';
  const idle = eachAlternative(condition).findIndex((one) => !search.canHold(one));
  return idle === -1 ? null : `has an alternative that can never hold, number ${idle + 1} of those it lists`;
}

/** A flow that does not ask when the baby was born adds to an examination in which anything may have been found. */
function possibleIn(flow: Flow, possible: PossibleValues, findings: Protocol['findingById']): PossibleValues {
  const settable = settableIn(flow, findings);
  const isWhole = !settable.has('born');
  return (term) => {
    if (isGuardField(term)) return possible(term);
    if (isWhole) return findings.has(term) || settable.has(term) || term === 'sex' ? possible(term) : [undefined];
    const values = settable.get(term);
    if (values === undefined) return [undefined];
    return values === 'any' ? possible(term) : possible(term).filter((value) => value === undefined || values.has(value as Value & string));
  };
}
