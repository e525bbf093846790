// What to do now: the advice of all that was given, in the protocol's order to act, each once, and none that another silences.

import type { Facts } from './facts.ts';
import type { Program } from './program.ts';
import type { Advice, Interpretation } from './protocol.ts';

export function adviceFor(program: Program, facts: Facts, urgency: Interpretation['urgency']): string[] {
  const due = new Set<number>();
  let treatCount = 0;
  for (const number of facts.given) {
    if (facts.verdicts[number]?.said.urgency === 'treat') treatCount++;
    for (const place of program.adviceOf[number] ?? []) due.add(place);
  }
  facts.values[program.slots.field.urgency] = urgency;
  facts.values[program.slots.field['treat-count']] = treatCount;
  for (const { place, when } of program.addedAdvice) if (when.holds(facts)) due.add(place);
  const keys: string[] = [];
  const silenced: string[] = [];
  for (const place of [...due].sort((a, b) => a - b)) {
    const { key, silences } = program.advice[place] as Advice;
    keys.push(key);
    silenced.push(...silences);
  }
  return silenced.length === 0 ? keys : keys.filter((key) => !silenced.includes(key));
}
