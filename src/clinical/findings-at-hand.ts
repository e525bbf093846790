// The findings of one baby as the dialog gathers them: each in the place that it has among all findings, so that two hundred are held and
// laid out for judging without looking up a name. What is no finding, such as a field of the baby, is held beside them by its name.
// Only written down is it stored (src/dialog/gather.ts). Next: any-case.ts, facts.ts.

import type { Finding, FindingValue } from './protocol.ts';

type Findings = ReadonlyMap<string, Finding>;

/** The place of each finding, from 0, in the order of the protocol. */
export type Places = ReadonlyMap<string, number>;

const placesOfAll = new WeakMap<Findings, Places>();

/** A function of the findings alone, and the same object for the same findings. */
export function placesOf(findings: Findings): Places {
  const known = placesOfAll.get(findings);
  if (known !== undefined) return known;
  const places = new Map([...findings.keys()].map((id, place) => [id, place]));
  placesOfAll.set(findings, places);
  return places;
}

/** A value to hold; `place` is undefined for what is no finding. */
export interface Placed {
  readonly of: string;
  readonly place: number | undefined;
  readonly value: FindingValue;
}

export class FindingsAtHand {
  readonly places: Places;
  /** The places that hold something, in the order in which they came to. */
  readonly held: readonly number[];
  private readonly values: (FindingValue | undefined)[];
  private readonly heldPlaces: number[] = [];
  private readonly others = new Map<string, FindingValue>();

  constructor(places: Places) {
    this.places = places;
    this.values = new Array<FindingValue | undefined>(places.size).fill(undefined);
    this.held = this.heldPlaces;
  }

  /** Undefined: nothing is held for it. */
  get(of: string): FindingValue | undefined {
    const place = this.places.get(of);
    return place === undefined ? this.others.get(of) : this.values[place];
  }

  has(of: string): boolean {
    return this.get(of) !== undefined;
  }

  at(place: number): FindingValue | undefined {
    return this.values[place];
  }

  set(of: string, value: FindingValue): void {
    const place = this.places.get(of);
    if (place === undefined) this.others.set(of, value);
    else this.put(place, value);
  }

  /** Holds each of these unless something is held for it already. */
  setUnlessHeld(all: readonly Placed[]): void {
    for (const { of, place, value } of all) {
      if (place === undefined) {
        if (!this.others.has(of)) this.others.set(of, value);
      } else if (this.values[place] === undefined) this.put(place, value);
    }
  }

  /** All that is held, by name. */
  entries(): [string, FindingValue][] {
    const found: [string, FindingValue][] = [];
    for (const [of, place] of this.places) {
      const value = this.values[place];
      if (value !== undefined) found.push([of, value]);
    }
    return [...found, ...this.others];
  }

  private put(place: number, value: FindingValue): void {
    if (this.values[place] === undefined) this.heldPlaces.push(place);
    this.values[place] = value;
  }
}
