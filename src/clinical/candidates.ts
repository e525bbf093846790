// Which classifications are worth judging in one case: those that something recorded can trigger, and those that always
// must be. Only saves time; tests/clinical/candidates.test.ts shows that nothing is lost. Next: triggers.ts.

import { bandOf } from './bands.ts';
import { type Facts, fieldTerms, type Slots } from './facts.ts';
import type { Band, NumberLine } from './number-line.ts';
import type { ClassificationRule, Protocol } from './protocol.ts';
import { triggersOf } from './triggers.ts';
import type { Value } from './value.ts';

type IsNotable = (value: Value) => boolean;

/** What no switch changes. */
export interface TriggeredPlaces {
  /** By place in the judging order: 1 where the classification must always be judged. */
  readonly always: readonly number[];
  /** By slot: the places of the classifications that any value, or a value that is not normal, can trigger. */
  readonly onKnown: readonly (readonly number[])[];
  readonly onNotable: readonly (readonly number[])[];
}

export interface Candidates extends TriggeredPlaces {
  readonly isNotable: readonly IsNotable[];
  readonly fieldSlots: readonly number[];
}

/** Takes    judged: the classifications in the order in which they are judged. */
export function triggeredPlaces(judged: readonly ClassificationRule[], protocol: Protocol, slots: Slots): TriggeredPlaces {
  const rules = new Map(protocol.classifications.map((rule) => [rule.id, rule]));
  const always = new Array<number>(judged.length).fill(0);
  const onKnown: number[][] = Array.from({ length: slots.size }, () => []);
  const onNotable: number[][] = Array.from({ length: slots.size }, () => []);
  for (const [place, rule] of judged.entries()) {
    const triggers = triggersOf(rule, protocol.findingById, (id) => rules.get(id));
    if (triggers === null) always[place] = 1;
    for (const { term, on } of triggers ?? []) (on === 'known' ? onKnown : onNotable)[slots.of(term)]?.push(place);
  }
  return { always, onKnown, onNotable };
}

export function prepareCandidates(
  places: TriggeredPlaces,
  protocol: Protocol,
  slots: Slots,
  bandsOf: (finding: NumberLine) => readonly Band[],
): Candidates {
  const isNotable = Array.from({ length: slots.size }, (): IsNotable => () => true);
  for (const finding of protocol.findings) {
    if (finding.kind === 'sign') isNotable[slots.of(finding.id)] = (value) => value === true;
    else if (finding.kind === 'choice') isNotable[slots.of(finding.id)] = (value) => value !== finding.options[0];
    else isNotable[slots.of(finding.id)] = outsideRoutine(bandsOf(finding));
  }
  for (const measure of protocol.measures.values()) isNotable[slots.of(measure.id)] = outsideRoutine(measure.bands);
  return { ...places, isNotable, fieldSlots: fieldTerms.map((term) => slots.of(term)) };
}

function outsideRoutine(bands: readonly Band[]): IsNotable {
  const isOutside = (reading: number): boolean => bandOf(reading, bands)?.routine !== true;
  return (value) => (typeof value === 'number' ? isOutside(value) : Array.isArray(value) && (value as readonly number[]).some(isOutside));
}

const none: readonly number[] = [];

/** The places of the classifications that may be met, in the order in which they are judged. */
export function candidatesIn(candidates: Candidates, facts: Facts): number[] {
  // A plain array: a typed one of this size is allocated outside the heap, which costs more than the marking.
  const marked = candidates.always.slice();
  const mark = (slot: number): void => {
    const value = facts.values[slot];
    if (value === null || value === undefined) return;
    for (const place of candidates.onKnown[slot] ?? none) marked[place] = 1;
    const notable = candidates.onNotable[slot] ?? none;
    if (notable.length === 0 || candidates.isNotable[slot]?.(value) !== true) return;
    for (const place of notable) marked[place] = 1;
  };
  for (const slot of facts.recorded) mark(slot);
  for (const slot of candidates.fieldSlots) mark(slot);
  const places: number[] = [];
  for (let place = 0; place < marked.length; place++) if (marked[place] === 1) places.push(place);
  return places;
}
