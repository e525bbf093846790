// Which rules are worth judging in one case: those that something recorded can trigger, and those that always must be. Only saves time; tests/clinical/candidates.test.ts shows that nothing is lost. Next: triggers.ts.

import { bandOf } from './bands.ts';
import { type Facts, fieldTerms, type Slots } from './facts.ts';
import { addInOrder } from './in-order.ts';
import type { Band, NumberLine } from './number-line.ts';
import type { ClassificationRule, Protocol } from './protocol.ts';
import { triggersOf } from './triggers.ts';
import type { Value } from './value.ts';

type IsNotable = (value: Value) => boolean;

/** What no switch changes. */
export interface TriggeredPlaces {
  /** Places, in the order in which rules are judged, of those that must always be. */
  readonly always: readonly number[];
  /** By slot: the places of the rules that any value, or a value that is not normal, can trigger. */
  readonly onKnown: readonly (readonly number[])[];
  readonly onNotable: readonly (readonly number[])[];
}

export interface Candidates extends TriggeredPlaces {
  /** By slot: the value that is normal, and for a number whether a value is not; by neither, any value is notable. */
  readonly normal: readonly Value[];
  readonly isNotable: readonly (IsNotable | undefined)[];
  readonly fieldSlots: readonly number[];
}

/** Takes    judged: the classifications in the order in which they are judged, and with them their rules. */
export function triggeredPlaces(judged: readonly ClassificationRule[], protocol: Protocol, slots: Slots): TriggeredPlaces {
  const rules = new Map(protocol.classifications.map((rule) => [rule.id, rule]));
  const always: number[] = [];
  const onKnown: number[][] = Array.from({ length: slots.size }, () => []);
  const onNotable: number[][] = Array.from({ length: slots.size }, () => []);
  const all = judged.flatMap((owner) => owner.rules.map((rule) => ({ owner, rule })));
  for (const [place, { owner, rule }] of all.entries()) {
    const triggers = triggersOf(rule, owner, protocol.findingById, (id) => rules.get(id));
    if (triggers === null) always.push(place);
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
  const normal = new Array<Value>(slots.size).fill(undefined);
  const isNotable = new Array<IsNotable | undefined>(slots.size).fill(undefined);
  for (const finding of protocol.findings) {
    if (finding.kind === 'sign') normal[slots.of(finding.id)] = false;
    else if (finding.kind === 'choice') normal[slots.of(finding.id)] = finding.options[0];
    else isNotable[slots.of(finding.id)] = outsideRoutine(bandsOf(finding));
  }
  for (const measure of protocol.measures.values()) isNotable[slots.of(measure.id)] = outsideRoutine(measure.bands);
  return { ...places, normal, isNotable, fieldSlots: fieldTerms.map((term) => slots.of(term)) };
}

function outsideRoutine(bands: readonly Band[]): IsNotable {
  const isOutside = (reading: number): boolean => bandOf(reading, bands)?.routine !== true;
  return (value) => (typeof value === 'number' ? isOutside(value) : Array.isArray(value) && (value as readonly number[]).some(isOutside));
}

/** The places of the rules that may be met, in the order in which they are judged, each once. */
export function candidatesIn(candidates: Candidates, { values, recorded }: Facts): number[] {
  const { always, onKnown, onNotable, normal, isNotable, fieldSlots } = candidates;
  const places = always.slice();
  const addTriggered = (slot: number): void => {
    const value = values[slot];
    if (value === null || value === undefined) return;
    const known = onKnown[slot] as readonly number[];
    if (known.length > 0) addInOrder(places, known);
    const notable = onNotable[slot] as readonly number[];
    if (notable.length > 0 && value !== normal[slot] && isNotable[slot]?.(value) !== false) addInOrder(places, notable);
  };
  for (const slot of recorded) addTriggered(slot);
  for (const slot of fieldSlots) addTriggered(slot);
  return places;
}
