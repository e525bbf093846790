// What one classification comes to in one case: its urgency, why, the rows that were met, and when to look again.

import { fromHours, shortest } from './duration.ts';
import type { Facts, Verdict } from './facts.ts';
import type { PreparedClassification, PreparedRule } from './program.ts';
import { type Because, type Rule, type Urgency, urgencies } from './protocol.ts';

/** The verdict, or undefined when no rule of the classification is met. Never looks at later classifications. */
export function judgeClassification(classification: PreparedClassification, facts: Facts): Verdict | undefined {
  const { rule, rules, raised, unless } = classification;
  if (!rules.some((one) => one.when.holds(facts))) return undefined;
  if (unless?.holds(facts)) return undefined;
  const met = [...rules, ...raised].filter((one) => one.when.holds(facts));
  const urgency = mostUrgent(met);
  const deciding = met.filter((one) => one.rule.urgency === urgency);
  const because = reasons(met, facts);
  const rows = [...new Set([...rule.rows, ...met.flatMap((one) => one.rule.rows)])];
  const recheck = shortest(deciding.flatMap((one) => recheckOf(one.rule, facts) ?? []));
  const within = shortest(deciding.flatMap((one) => one.rule.within ?? []));
  return {
    said: {
      id: rule.id,
      urgency,
      because,
      rows,
      ...(recheck === undefined ? undefined : { recheck }),
      ...(within === undefined ? undefined : { within }),
    },
    restsOnAge: deciding.every((one) => one.when.restsOnAge(facts)),
  };
}

function mostUrgent(met: readonly PreparedRule[]): Urgency {
  return urgencies.find((urgency) => met.some((one) => one.rule.urgency === urgency)) ?? 'routine';
}

/** Each reason once, however many rules it met. */
function reasons(met: readonly PreparedRule[], facts: Facts): Because[] {
  const all: Because[] = [];
  for (const one of met) one.when.explain(facts, all);
  const seen = new Set<string>();
  return all.filter((reason) => {
    // A gestation is an object, and two of the same weeks are the same reason.
    const value = typeof reason.value === 'object' ? JSON.stringify(reason.value) : String(reason.value);
    const key = `${reason.finding} ${value} ${reason.limit}`;
    return !seen.has(key) && seen.add(key);
  });
}

function recheckOf({ recheck }: Rule, facts: Facts): string | undefined {
  if (recheck === undefined || typeof recheck === 'string') return recheck;
  const age = facts.case.ageHours;
  return age === null || age === undefined ? undefined : fromHours(Math.max(0, recheck.atAgeHours - age));
}
