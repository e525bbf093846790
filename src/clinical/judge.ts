// The shape of a judge: a condition as functions over any source of values, which also say why it held. Only types.
// Next: condition.ts (conditions joined), judge-test.ts (what is asked of one term).

import type { Band, Limit, Line, NumberLine, Switch } from './number-line.ts';
import type { Value } from './value.ts';

/** What was found, and the limit it was held against, such as `< 35.5`. */
export interface Reason {
  readonly finding: string;
  readonly value: unknown;
  readonly limit?: string;
}

export interface Judge<Source> {
  readonly holds: (source: Source) => boolean;
  /** Adds what made it hold; called only where it does. */
  readonly explain: (source: Source, because: Reason[]) => void;
  /** True when it holds only because an unknown age could be any age. */
  readonly restsOnAge: (source: Source) => boolean;
}

/** Where values come from, and where the lines lie. */
export interface Ground<Source> {
  readonly read: (term: string) => (source: Source) => Value;
  /** The name and the value under which a term is shown in a reason. */
  readonly show: (term: string) => (source: Source) => { readonly finding: string; readonly value: unknown };
  readonly bandsOf: (finding: NumberLine) => readonly Band[];
  readonly lineOf: (limit: Limit) => Line;
  readonly optionOf: (one: Switch) => string | undefined;
  /** True where the term's value would be another at another age, and the age is not known. */
  readonly restsOnAge: (term: string) => (source: Source) => boolean;
  readonly given: (classification: string) => Judge<Source>;
  /** How many hours ago an earlier look gave it first (Case.givenBefore). */
  readonly givenBefore: (classification: string) => (source: Source) => number | undefined;
}
