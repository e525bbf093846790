// What one classification comes to in one case: its urgency, why, the rows that were met, and when to look again.

import { fromHours, shortest } from './duration.ts';
import type { Facts, Verdict } from './facts.ts';
import type { PreparedClassification, PreparedRule } from './program.ts';
import { type Because, type Classification, type Rule, type Urgency, urgencies } from './protocol.ts';

/** The verdict, or undefined when no rule of the classification is met. Never looks at later classifications. */
export function judgeClassification({ rule, rules, raised, unless }: PreparedClassification, facts: Facts): Verdict | undefined {
  const met: PreparedRule[] = [];
  for (const one of rules) if (one.when.holds(facts)) met.push(one);
  if (met.length === 0 || unless?.holds(facts)) return undefined;
  for (const one of raised) if (one.when.holds(facts)) met.push(one);
  const urgency = mostUrgent(met);
  const deciding = met.filter((one) => one.rule.urgency === urgency);
  const said: Writable<Classification> = { id: rule.id, urgency, because: reasons(met, facts), rows: rowsOf(rule.rows, met) };
  const recheck = shortest(deciding.flatMap((one) => recheckOf(one.rule, facts) ?? []));
  if (recheck !== undefined) said.recheck = recheck;
  const within = shortest(deciding.flatMap((one) => one.rule.within ?? []));
  if (within !== undefined) said.within = within;
  // While the age is known, nothing rests on its not being known.
  return { said, restsOnAge: facts.restsOnAge.size > 0 && deciding.every((one) => one.when.restsOnAge(facts)) };
}

type Writable<T> = { -readonly [Key in keyof T]: T[Key] };

function mostUrgent(met: readonly PreparedRule[]): Urgency {
  return urgencies.find((urgency) => met.some((one) => one.rule.urgency === urgency)) ?? 'routine';
}

/** The rows of the classification and of each rule that is met, each once. */
function rowsOf(always: readonly string[], met: readonly PreparedRule[]): string[] {
  const rows: string[] = [];
  const add = (row: string): void => {
    if (!rows.includes(row)) rows.push(row);
  };
  always.forEach(add);
  for (const { rule } of met) rule.rows.forEach(add);
  return rows;
}

/** Each reason once, however many rules it met. */
function reasons(met: readonly PreparedRule[], facts: Facts): Because[] {
  const all: Because[] = [];
  for (const one of met) one.when.explain(facts, all);
  return all.length < 2 ? all : all.filter((reason, place) => all.findIndex((other) => isSame(reason, other)) === place);
}

/** A gestation is an object, and two of the same weeks are the same reason. */
function isSame(one: Because, other: Because): boolean {
  if (one.finding !== other.finding || one.limit !== other.limit) return false;
  return one.value === other.value || (typeof one.value === 'object' && JSON.stringify(one.value) === JSON.stringify(other.value));
}

function recheckOf({ recheck }: Rule, facts: Facts): string | undefined {
  if (recheck === undefined || typeof recheck === 'string') return recheck;
  const age = facts.case.ageHours;
  return age === null || age === undefined ? undefined : fromHours(Math.max(0, recheck.atAgeHours - age));
}
