// What a case means: findings in; classifications with their reasons, the baby's urgency, what is missing and what to do out.
// Pure, and the same for the same case whatever the order of its keys. Next: program.ts, verdict.ts, advise.ts.

import { adviceFor } from './advise.ts';
import type { AnyCase } from './any-case.ts';
import { candidatesIn } from './candidates.ts';
import { withCare } from './compute-care.ts';
import type { Facts, Verdict } from './facts.ts';
import { layCase } from './lay-case.ts';
import { missingIn } from './missing.ts';
import { type PreparedClassification, type PreparedRule, type Program, programFor } from './program.ts';
import { type Classification, type Interpretation, type Protocol, type Urgency, urgencies } from './protocol.ts';
import { highestRank, metOf, routineRank, verdictOn } from './verdict.ts';

/**
 * The interpretation of one case. Never throws on a case whose values are in range (src/authoring/read-case.ts).
 *
 * Returns  urgency: the highest that was given; `incomplete` when nothing was and an answer is missing; else `routine`.
 *          classifications: most urgent first; among equals, boxes after what they gather.
 */
export function interpret(protocol: Protocol, aCase: AnyCase): Interpretation {
  return interpretationOf(judgedFacts(protocol, aCase));
}

/** What the judged case comes to. Uses it up: what only a well baby is given is added to its facts. */
export function interpretationOf({ program, facts }: JudgedFacts): Interpretation {
  const missing = missingIn(program, facts);
  const urgency = urgencyOf(facts, missing);
  if (urgency === 'routine') giveToRoutineBaby(program, facts);
  return {
    urgency,
    classifications: inOrder(program, facts),
    missing,
    advice: adviceFor(program, facts, urgency),
    computed: withCare(program, facts) as unknown as Readonly<Record<string, unknown>>,
  };
}

export interface JudgedFacts {
  readonly program: Program;
  readonly facts: Facts;
}

/** The case laid out and judged, before it is known whether the baby is well; for checks that ask which rules are met in it. */
export function judgedFacts(protocol: Protocol, aCase: AnyCase): JudgedFacts {
  const program = programFor(protocol, aCase.switches);
  const facts = layCase(protocol, program.slots, aCase);
  const candidates = candidatesIn(program.candidates, facts).map((place) => program.rules[place] as Program['rules'][number]);
  let met: PreparedRule[] = [];
  for (const [at, { of, rule }] of candidates.entries()) {
    if (rule.when.holds(facts)) met.push(rule);
    // The rules of one classification stand together. After its last it is given or not, since later ones may ask.
    if (candidates[at + 1]?.of === of) continue;
    give(verdictOn(of, met, facts), facts);
    met = [];
  }
  return { program, facts };
}

/** The interpretation bound to one protocol. */
export function interpreterFor(protocol: Protocol): (aCase: AnyCase) => Interpretation {
  return (aCase) => interpret(protocol, aCase);
}

function give(verdict: Verdict | undefined, { given }: Facts): void {
  if (verdict !== undefined) given.push(verdict);
}

/** What only a well baby is given is judged on what was recorded, not on what is assumed; and given even if no row is met. */
function giveToRoutineBaby(program: Program, facts: Facts): void {
  const recorded = facts.case.unlisted === 'normal' ? { ...facts, values: program.slots.recordedOnly(facts) } : facts;
  for (const classification of program.routineClassifications) {
    give(verdictOn(classification, metOf(classification.rules, recorded), recorded) ?? plainly(classification), facts);
  }
}

function plainly({ rule: { id, rows }, number }: PreparedClassification): Verdict {
  return { number, said: { id, urgency: 'routine', because: [], rows }, rank: routineRank, restsOnAge: false };
}

function urgencyOf({ given }: Facts, missing: readonly string[]): Interpretation['urgency'] {
  const highest = highestRank(given);
  return highest === routineRank && missing.length > 0 ? 'incomplete' : (urgencies[highest] as Urgency);
}

function inOrder({ protocol: { classifications } }: Program, { given }: Facts): Classification[] {
  const isBox = ({ number }: Verdict): number => (classifications[number]?.box === true ? 1 : 0);
  const sorted = given.length < 2 ? given : [...given].sort((a, b) => a.rank - b.rank || isBox(a) - isBox(b) || a.number - b.number);
  return sorted.map(({ said }) => said);
}
