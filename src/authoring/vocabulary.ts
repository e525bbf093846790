// The names that a condition may use: findings, fields of the case and what is computed from them, named conditions,
// limits, switches, classifications. A flow adds names of its own, such as urgency. Next: read-leaf.ts.

import type { Condition } from '../clinical/condition.ts';
import type { Limit, Switch } from '../clinical/number-line.ts';
import type { Finding, NumberFinding } from '../clinical/protocol.ts';

/** A term that is not a finding. Units: what one of it is worth in the unit that the value is held in. Measure: its bands. */
export type Field =
  | { readonly kind: 'number'; readonly units: Readonly<Record<string, number>>; readonly measure?: NumberFinding }
  | { readonly kind: 'choice'; readonly options: readonly string[] };

export interface Vocabulary {
  readonly findings: ReadonlyMap<string, Finding>;
  readonly fields: ReadonlyMap<string, Field>;
  readonly conditions: ReadonlyMap<string, Condition>;
  readonly limits: ReadonlyMap<string, Limit>;
  readonly switches: ReadonlyMap<string, Switch>;
  readonly classifications: ReadonlySet<string>;
  readonly families: ReadonlyMap<string, readonly string[]>;
}

/** What a finding or field may be tested for with "is". */
export function termsOf(vocabulary: Vocabulary): string[] {
  return [...vocabulary.findings.keys(), ...vocabulary.fields.keys()];
}
