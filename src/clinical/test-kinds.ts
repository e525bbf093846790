// What a condition can ask of one term. Only types; what each kind means is judge-test.ts.
// The words it is written in are read by src/authoring/read-leaf.ts. Next: condition.ts, which joins tests.

import type { Limit, NumberLine } from './number-line.ts';

export type Comparator = '<' | '<=' | '>' | '>=';

/** Which of a finding's readings is meant. `standing`: those that stand by the finding's own rules (readings.ts). */
export type Which = 'standing' | 'first' | 'second' | 'third' | 'last' | 'lowest' | 'highest';

/** What is asked of one term. Unknown is not found: a test of something that is not known does not hold. */
export type Test =
  | { readonly kind: 'seen'; readonly term: string }
  /** Looked for and not there. */
  | { readonly kind: 'absent'; readonly term: string }
  | { readonly kind: 'is'; readonly term: string; readonly options: readonly string[]; readonly takesNormal: boolean }
  | {
      readonly kind: 'in-band';
      readonly term: string;
      readonly which: Which;
      readonly finding: NumberLine;
      readonly bands: readonly string[];
    }
  | {
      readonly kind: 'readings-in-band';
      readonly term: string;
      readonly atLeast: number;
      readonly finding: NumberLine;
      readonly bands: readonly string[];
    }
  | { readonly kind: 'readings-fall'; readonly term: string }
  | { readonly kind: 'has-reading'; readonly term: string; readonly atLeast: number }
  | { readonly kind: 'known'; readonly term: string }
  | {
      readonly kind: 'compared';
      readonly term: string;
      readonly comparator: Comparator;
      readonly to: Compared;
      readonly which?: Exclude<Which, 'standing'>;
    }
  | { readonly kind: 'beside-line'; readonly term: string; readonly side: 'below' | 'past'; readonly limit: Limit };

/** A number in the term's own unit, or another term. */
export type Compared = { readonly number: number } | { readonly term: string };
