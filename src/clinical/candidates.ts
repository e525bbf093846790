// Which classifications are worth judging in one case: those that something recorded can trigger, and those that always
// must be. Only saves time; tests/clinical/candidates.test.ts shows that nothing is lost. Next: triggers.ts.

import { bandOf, bandsUnder, type ChosenOption } from './bands.ts';
import { type Facts, fieldTerms, type Slots } from './facts.ts';
import type { Band } from './number-line.ts';
import type { ClassificationRule, NumberFinding, Protocol } from './protocol.ts';
import { triggersOf } from './triggers.ts';
import type { Value } from './value.ts';

type IsNotable = (value: Value) => boolean;

export interface Candidates {
  /** 1 for each classification, by its number, that must always be judged. */
  readonly always: Uint8Array;
  /** By slot: the numbers of the classifications that any value, or a value that is not normal, can trigger. */
  readonly onKnown: readonly (readonly number[])[];
  readonly onNotable: readonly (readonly number[])[];
  readonly isNotable: readonly IsNotable[];
  readonly fieldSlots: readonly number[];
}

export function prepareCandidates(protocol: Protocol, slots: Slots, chosen: ChosenOption): Candidates {
  const rules = new Map(protocol.classifications.map((rule) => [rule.id, rule]));
  const always = new Uint8Array(protocol.classifications.length);
  const onKnown: number[][] = Array.from({ length: slots.size }, () => []);
  const onNotable: number[][] = Array.from({ length: slots.size }, () => []);
  protocol.classifications.forEach((rule: ClassificationRule, number) => {
    const triggers = rule.givenTo === 'routine-baby' ? null : triggersOf(rule, protocol.findingById, (id) => rules.get(id));
    if (triggers === null) always[number] = 1;
    for (const { term, on } of triggers ?? []) (on === 'known' ? onKnown : onNotable)[slots.of(term)]?.push(number);
  });
  const isNotable = Array.from({ length: slots.size }, (): IsNotable => () => true);
  const bands = (finding: NumberFinding): readonly Band[] => bandsUnder(finding, protocol.limits, chosen);
  for (const finding of protocol.findings) {
    if (finding.kind === 'sign') isNotable[slots.of(finding.id)] = (value) => value === true;
    else if (finding.kind === 'choice') isNotable[slots.of(finding.id)] = (value) => value !== finding.options[0];
    else isNotable[slots.of(finding.id)] = outsideRoutine(bands(finding));
  }
  for (const measure of protocol.measures.values()) isNotable[slots.of(measure.id)] = outsideRoutine(measure.bands);
  return { always, onKnown, onNotable, isNotable, fieldSlots: fieldTerms.map((term) => slots.of(term)) };
}

function outsideRoutine(bands: readonly Band[]): IsNotable {
  const isOutside = (reading: number): boolean => bandOf(reading, bands)?.routine !== true;
  return (value) => (typeof value === 'number' ? isOutside(value) : Array.isArray(value) && (value as readonly number[]).some(isOutside));
}

/** 1 for each classification, by its number, that may be met. */
export function candidatesIn(candidates: Candidates, slots: Slots, facts: Facts): Uint8Array {
  const marked = candidates.always.slice();
  const mark = (slot: number): void => {
    const value = facts.values[slot];
    if (value === null || value === undefined) return;
    const known = candidates.onKnown[slot] as readonly number[];
    for (let i = 0; i < known.length; i++) marked[known[i] as number] = 1;
    const notable = candidates.onNotable[slot] as readonly number[];
    if (notable.length === 0 || candidates.isNotable[slot]?.(value) !== true) return;
    for (let i = 0; i < notable.length; i++) marked[notable[i] as number] = 1;
  };
  for (const id of Object.keys(facts.case.findings)) {
    const slot = slots.find(id);
    if (slot !== undefined) mark(slot);
  }
  for (const slot of candidates.fieldSlots) mark(slot);
  return marked;
}
