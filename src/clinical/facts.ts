// A case laid out for judging: every term of the conditions in a slot of its own, with what "unlisted: normal" means.
// Next: computed.ts (sizes, weight change), program.ts (how conditions read the slots).

import { type AnyCase, allFoundIn } from './any-case.ts';
import type { Computed } from './computed.ts';
import { FindingsAtHand, type Places, placesOf } from './findings-at-hand.ts';
import type { Classification, Finding, FindingValue } from './protocol.ts';
import { assumedNormal, type Value } from './value.ts';

/** Terms that are not findings, each with a slot after those of the findings. */
export const fieldTerms = [
  'age',
  'sex',
  'gestation',
  'birth-weight',
  'weight',
  'class-weight',
  'dose-weight',
  'size',
  'weight-change',
  'weight-gain',
  'weight-for-age',
  'head-centile',
  'head-growth',
  'saturation-difference',
  'bilirubin-treatment-line',
  'bilirubin-exchange-line',
  'urgency',
  'treat-count',
] as const;
export type FieldTerm = (typeof fieldTerms)[number];

/** What a classification came to in one case. */
export interface Verdict {
  /** The place of the classification in the order in which equals are told. */
  readonly number: number;
  readonly said: Classification;
  /** The place of its urgency among all: the most urgent has the least. */
  readonly rank: number;
  /** True when it is so urgent only because an unknown age could be any age. */
  readonly restsOnAge: boolean;
}

export interface Facts {
  readonly case: AnyCase;
  readonly computed: Computed;
  /** By slot. */
  readonly values: Value[];
  /** Slots of the findings that the case lists, whatever it says of them. */
  readonly recorded: readonly number[];
  /** Slots whose value would be another at another age, while the age is not known. */
  readonly restsOnAge: ReadonlySet<number>;
  /** In the order in which they were judged. So few that they are looked through. */
  readonly given: Verdict[];
}

export function verdictIn({ given }: Facts, number: number): Verdict | undefined {
  for (const verdict of given) if (verdict.number === number) return verdict;
  return undefined;
}

export const noSlots: ReadonlySet<number> = new Set();

export class Slots {
  private readonly byTerm: ReadonlyMap<string, number>;
  private readonly places: Places;
  /** Fields lie after the findings, in the order of fieldTerms. */
  readonly field: Readonly<Record<FieldTerm, number>>;
  private readonly findingCount: number;
  /** By slot: the decimals that a reading is rounded to before it is judged. */
  private readonly roundedTo: readonly (number | undefined)[];
  private readonly nothingKnown: readonly Value[];
  private readonly allNormal: readonly Value[];

  constructor(byId: ReadonlyMap<string, Finding>) {
    const findings = [...byId.values()];
    this.places = placesOf(byId);
    this.byTerm = new Map([...this.places, ...fieldTerms.map((term, at): [string, number] => [term, findings.length + at])]);
    this.findingCount = findings.length;
    this.field = Object.fromEntries(fieldTerms.map((term, place) => [term, findings.length + place])) as Record<FieldTerm, number>;
    this.roundedTo = findings.map((finding) => ('judgedRounded' in finding && finding.judgedRounded ? finding.decimals : undefined));
    this.nothingKnown = new Array<Value>(this.byTerm.size).fill(undefined);
    this.allNormal = this.nothingKnown.map((_, slot) => (findings[slot]?.notDoneUnlisted === false ? assumedNormal : undefined));
  }

  get size(): number {
    return this.byTerm.size;
  }

  of(term: string): number {
    const slot = this.byTerm.get(term);
    if (slot === undefined)
      throw new Error(`No value is ever held for "${term}". Add it to findings.yaml, or to the field terms in src/clinical/facts.ts.`);
    return slot;
  }

  /** The values without those that are only assumed to be normal because they were not listed. */
  recordedOnly({ values }: Facts): Value[] {
    return values.map((value) => (value === assumedNormal ? undefined : value));
  }

  /** The findings of a case in their slots, and which slots those are; the fields are left empty. */
  lay(aCase: AnyCase): Pick<Facts, 'values' | 'recorded'> {
    const values = (aCase.unlisted === 'normal' ? this.allNormal : this.nothingKnown).slice();
    const { findings } = aCase;
    // Found by the same names, a case at hand has them in our places.
    if (findings instanceof FindingsAtHand && findings.places === this.places) {
      for (const slot of findings.held) values[slot] = this.asJudged(findings.at(slot) ?? null, slot);
      return { values, recorded: findings.held };
    }
    const recorded: number[] = [];
    for (const [id, value] of allFoundIn(aCase)) {
      const slot = this.byTerm.get(id);
      if (value === undefined || slot === undefined || slot >= this.findingCount) continue;
      values[slot] = this.asJudged(value, slot);
      recorded.push(slot);
    }
    return { values, recorded };
  }

  private asJudged(value: FindingValue, slot: number): Value {
    const decimals = this.roundedTo[slot];
    return decimals === undefined ? value : judged(value, decimals);
  }
}

/** The readings as they are judged. */
function judged(recorded: FindingValue, decimals: number): Value {
  if (typeof recorded === 'number') return rounded(recorded, decimals);
  return Array.isArray(recorded) ? (recorded as readonly number[]).map((reading) => rounded(reading, decimals)) : recorded;
}

/** Half away from zero on the digits as written: 35.45 is 35.5 although it has no exact binary form. */
function rounded(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  const scaled = value * scale;
  return (Number.isInteger(scaled) ? scaled : Math.round(Number(scaled.toPrecision(12)))) / scale;
}
