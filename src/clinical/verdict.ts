// What one classification comes to in one case: its urgency, why, the rows that were met, and when to look again.

import { fromHours, shorter } from './duration.ts';
import type { Facts, Verdict } from './facts.ts';
import type { PreparedClassification, PreparedRule } from './program.ts';
import { type Because, type Classification, type Rule, type Urgency, urgencies } from './protocol.ts';

/**
 * The verdict, or undefined when the classification is not given after all. Never looks at later classifications.
 *
 * Takes    metFirst: those of its rules that are met, in their order; what is raised by them is judged here.
 */
export function verdictOn(
  { rule, number, raised, unless }: PreparedClassification,
  metFirst: readonly PreparedRule[],
  facts: Facts,
): Verdict | undefined {
  if (metFirst.length === 0 || unless?.holds(facts)) return undefined;
  const met = raised.length === 0 ? metFirst : [...metFirst, ...metOf(raised, facts)];
  const rank = highestRank(met);
  const said: Writable<Classification> = {
    id: rule.id,
    urgency: urgencies[rank] as Urgency,
    because: reasons(met, facts),
    rows: rowsOf(met),
  };
  let recheck: string | undefined;
  let within: string | undefined;
  // While the age is known, nothing rests on its not being known.
  let restsOnAge = facts.restsOnAge.size > 0;
  for (const deciding of met) {
    if (deciding.rank !== rank) continue;
    recheck = shorter(recheck, recheckOf(deciding.rule, facts));
    within = shorter(within, deciding.rule.within);
    restsOnAge &&= deciding.when.restsOnAge(facts);
  }
  if (recheck !== undefined) said.recheck = recheck;
  if (within !== undefined) said.within = within;
  return { number, said, rank, restsOnAge };
}

type Writable<T> = { -readonly [Key in keyof T]: T[Key] };

export const routineRank = urgencies.indexOf('routine');

/** The rank of the most urgent, which is the least number; of none it is routine. */
export function highestRank(ranked: readonly { readonly rank: number }[]): number {
  let highest = routineRank;
  for (const { rank } of ranked) highest = Math.min(highest, rank);
  return highest;
}

export function metOf(rules: readonly PreparedRule[], facts: Facts): PreparedRule[] {
  return rules.filter(({ when }) => when.holds(facts));
}

/** The rows of the classification and of each rule that is met, each once. */
function rowsOf(met: readonly PreparedRule[]): readonly string[] {
  const [first] = met;
  return met.length === 1 && first !== undefined ? first.rows : [...new Set(met.flatMap((one) => one.rows))];
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
