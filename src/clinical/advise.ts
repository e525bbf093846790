// What to do now: the advice of all that was given, in the protocol's order to act, each once, and none that another silences.

import type { Facts } from './facts.ts';
import { addInOrder } from './in-order.ts';
import type { Program } from './program.ts';
import type { Advice, Interpretation } from './protocol.ts';

export function adviceFor(program: Program, facts: Facts, urgency: Interpretation['urgency']): string[] {
  const due: number[] = [];
  let treatCount = 0;
  for (const { number, said, rank } of facts.given) {
    if (said.urgency === 'treat') treatCount++;
    addInOrder(due, program.adviceOf[number]?.[rank] ?? []);
  }
  facts.values[program.slots.field.urgency] = urgency;
  facts.values[program.slots.field['treat-count']] = treatCount;
  for (const { place, when } of program.addedAdvice) if (when.holds(facts)) addInOrder(due, [place]);
  const keys: string[] = [];
  const silenced: string[] = [];
  for (const place of due) {
    const { key, silences } = program.advice[place] as Advice;
    keys.push(key);
    if (silences.length > 0) silenced.push(...silences);
  }
  return silenced.length === 0 ? keys : keys.filter((key) => !silenced.includes(key));
}
