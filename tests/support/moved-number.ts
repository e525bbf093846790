// A protocol with one number moved, as an edit of its files would move it, and with no more of its rules than hang on that
// number: so that all numbers can be moved one by one. Next: deciding-numbers.ts.

import type { Condition } from '../../src/clinical/condition.ts';
import { parts, termIn } from '../../src/clinical/condition-parts.ts';
import type { ClassificationRule, Protocol } from '../../src/clinical/protocol.ts';
import type { DecidingNumber } from './deciding-numbers.ts';

export function withMoved(protocol: Protocol, { users, held, movedBy }: DecidingNumber, by: number): Protocol {
  return replaced(withOnly(protocol, users), held, movedBy(by));
}

/** With these classifications and those that they ask about; without care, which no case of the floor expects. */
function withOnly(protocol: Protocol, ids: readonly string[]): Protocol {
  const rules = new Map(protocol.classifications.map((rule) => [rule.id, rule]));
  const kept = new Set<string>();
  const keep = (id: string): void => {
    if (kept.has(id)) return;
    kept.add(id);
    const rule = rules.get(id);
    for (const condition of rule === undefined ? [] : conditionsOf(rule)) awaitedBy(condition, protocol).forEach(keep);
  };
  ids.forEach(keep);
  return {
    ...protocol,
    classifications: protocol.classifications.filter((rule) => kept.has(rule.id)),
    conditions: new Map(),
    needs: [],
    doses: [],
    advice: [],
    contradictions: [],
  };
}

function conditionsOf({ unless, rules, raised }: ClassificationRule): Condition[] {
  return [...(unless ? [unless] : []), ...[...rules, ...raised].map((rule) => rule.when)];
}

function awaitedBy(condition: Condition, protocol: Protocol): string[] {
  const risk = termIn(condition).includes('bilirubin') ? [protocol.bilirubin.atRisk] : [];
  const own = condition.kind === 'given' ? condition.classifications : [];
  return [...own, ...[...risk, ...parts(condition)].flatMap((part) => awaitedBy(part, protocol))];
}

/** The same protocol with one object in place of another, wherever it is held. The growth tables are left as they are. */
function replaced(protocol: Protocol, held: object, instead: object): Protocol {
  const done = new Map<unknown, unknown>([[held, instead]]);
  const copy = (value: unknown): unknown => {
    if (typeof value !== 'object' || value === null) return value;
    if (!done.has(value)) done.set(value, copied(value, copy));
    return done.get(value);
  };
  const { growth, ...rest } = protocol;
  return { ...(copy(rest) as Protocol), ...(growth === undefined ? {} : { growth }) };
}

/** Itself, when nothing in it was replaced. */
function copied(value: object, copy: (part: unknown) => unknown): unknown {
  const entries = value instanceof Map ? [...value] : Object.entries(value);
  const made = entries.map(([key, part]) => [key, copy(part)] as const);
  if (made.every(([, part], i) => part === entries[i]?.[1])) return value;
  if (value instanceof Map) return new Map(made);
  return Array.isArray(value) ? made.map(([, part]) => part) : Object.fromEntries(made);
}
