// What to do now: the advice of all that was given, in the protocol's order to act, each once, and none that another silences.

import type { Facts } from './facts.ts';
import type { Program } from './program.ts';
import type { Advice, Interpretation } from './protocol.ts';

export function adviceFor(program: Program, facts: Facts, urgency: Interpretation['urgency']): string[] {
  const places = new Set<number>();
  let treatCount = 0;
  for (const number of facts.given) {
    if (facts.verdicts[number]?.said.urgency === 'treat') treatCount++;
    for (const place of program.adviceOf[number] ?? []) places.add(place);
  }
  facts.values[program.slots.ofField('urgency')] = urgency;
  facts.values[program.slots.ofField('treat-count')] = treatCount;
  for (const { place, when } of program.addedAdvice) if (when.holds(facts)) places.add(place);
  const said = [...places].sort((a, b) => a - b).map((place) => program.advice[place] as Advice);
  const silencing = said.filter((advice) => advice.silences.length > 0);
  if (silencing.length === 0) return said.map((advice) => advice.key);
  const silenced = new Set(silencing.flatMap((advice) => advice.silences));
  return said.map((advice) => advice.key).filter((key) => !silenced.has(key));
}
