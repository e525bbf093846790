// What a case means: findings in; classifications with their reasons, the baby's urgency, what is missing and what to do out.
// Pure, and the same for the same case whatever the order of its keys. Next: program.ts, verdict.ts, advise.ts.

import { adviceFor } from './advise.ts';
import type { AnyCase } from './any-case.ts';
import { candidatesIn } from './candidates.ts';
import { withCare } from './compute-care.ts';
import type { Facts, Verdict } from './facts.ts';
import { layCase } from './lay-case.ts';
import { missingIn } from './missing.ts';
import { type PreparedClassification, type Program, programFor } from './program.ts';
import { type Classification, type Interpretation, type Protocol, urgencies } from './protocol.ts';
import { judgeClassification } from './verdict.ts';

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
  for (const place of candidatesIn(program.candidates, facts)) {
    const classification = program.classifications[place];
    if (classification !== undefined) give(classification, judgeClassification(classification, facts), facts);
  }
  return { program, facts };
}

/** The interpretation bound to one protocol. */
export function interpreterFor(protocol: Protocol): (aCase: AnyCase) => Interpretation {
  return (aCase) => interpret(protocol, aCase);
}

function give({ number }: PreparedClassification, verdict: Verdict | undefined, facts: Facts): void {
  if (verdict === undefined) return;
  facts.verdicts[number] = verdict;
  facts.given.push(number);
}

/** What only a well baby is given is judged on what was recorded, not on what is assumed; and given even if no row is met. */
function giveToRoutineBaby(program: Program, facts: Facts): void {
  const recorded = facts.case.unlisted === 'normal' ? { ...facts, values: program.slots.recordedOnly(facts) } : facts;
  for (const classification of program.routineClassifications) {
    const { id, rows } = classification.rule;
    const plain: Verdict = { said: { id, urgency: 'routine', because: [], rows }, restsOnAge: false };
    give(classification, judgeClassification(classification, recorded) ?? plain, facts);
  }
}

function urgencyOf({ given, verdicts }: Facts, missing: readonly string[]): Interpretation['urgency'] {
  let highest = urgencies.length - 1;
  for (const number of given) highest = Math.min(highest, urgencies.indexOf(verdicts[number]?.said.urgency ?? 'routine'));
  const urgency = urgencies[highest] ?? 'routine';
  return urgency === 'routine' && missing.length > 0 ? 'incomplete' : urgency;
}

function inOrder({ protocol }: Program, { given, verdicts }: Facts): Classification[] {
  if (given.length < 2) return given.flatMap((number) => verdicts[number]?.said ?? []);
  const rank = (number: number): number => {
    const isBox = protocol.classifications[number]?.box === true;
    return (
      (urgencies.indexOf(verdicts[number]?.said.urgency ?? 'routine') * 2 + (isBox ? 1 : 0)) * protocol.classifications.length + number
    );
  };
  return [...given].sort((a, b) => rank(a) - rank(b)).flatMap((number) => verdicts[number]?.said ?? []);
}
