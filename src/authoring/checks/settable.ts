// What the answers of one flow can make known: by finding or field the values that a worker can give, or that a step sets in
// place of an answer. Next: never-holds.ts, path-asks.ts.

import { normalValue } from '../../clinical/normal-value.ts';
import type { Finding, FindingValue } from '../../clinical/protocol.ts';
import type { Flow, Step } from '../../dialog/flow.ts';

/** `any`: every number in its range. */
export type Settable = ReadonlyMap<string, ReadonlySet<FindingValue> | 'any'>;

export function settableIn({ steps }: Pick<Flow, 'steps'>, findings: ReadonlyMap<string, Finding>): Settable {
  const settable = new Map<string, Set<FindingValue> | 'any'>();
  const add = (of: string, ...values: FindingValue[]): void => {
    const before = settable.get(of);
    if (before !== 'any') settable.set(of, new Set([...(before ?? []), ...values]));
  };
  const addAll = (values: Readonly<Record<string, FindingValue>>): void => {
    for (const [of, value] of Object.entries(values)) add(of, value);
  };
  for (const step of steps) {
    for (const [of, values] of readIn(step)) {
      if (values.length === 0) settable.set(of, 'any');
      else add(of, ...values);
    }
    if (step.kind === 'read' || step.kind === 'again') addAll(step.notKnown);
    if (step.kind !== 'mark') continue;
    for (const { sets, otherwise } of step.marks) {
      if (sets !== null) add(sets.of, sets.value, ...normalOf(findings.get(sets.of)));
      addAll(otherwise);
    }
  }
  return settable;
}

/** Options that a step offers; none for a number. A sign that is read is there or not. */
function readIn(step: Step): (readonly [of: string, values: readonly FindingValue[]])[] {
  if (step.kind === 'again') return [[step.of, []]];
  return step.kind === 'read' ? step.fields.map(({ of, options }) => [of, options]) : [];
}

/** What holds when the mark is not made. */
function normalOf(finding: Finding | undefined): FindingValue[] {
  const normal = normalValue(finding);
  return normal === undefined ? [] : [normal];
}
