// A condition over what was found on a baby: tests joined by all, any, none and "two of", and named conditions.
// It becomes functions once (judgeCondition) and is then judged as often as need be; `holds` judges one over a lookup.
// What a test of one term means: judge-test.ts. The words it is written in: src/authoring/read-condition.ts.

import { lineOf } from './bands.ts';
import type { Ground, Judge } from './judge.ts';
import { judgeTest } from './judge-test.ts';
import type { Limit, NumberLine, Switch } from './number-line.ts';
import type { Test } from './test-kinds.ts';
import { ageTerm, isKnown, type Value } from './value.ts';

export type Condition =
  | { readonly kind: 'all' | 'any' | 'none'; readonly of: readonly Condition[] }
  | { readonly kind: 'at-least'; readonly count: number; readonly of: readonly Condition[] }
  | { readonly kind: 'not'; readonly of: Condition }
  /** A named condition, judged as if nothing were known of the terms in `besides`. */
  | { readonly kind: 'named'; readonly name: string; readonly besides: readonly string[]; readonly of: Condition }
  /** Any of these classifications is given. */
  | { readonly kind: 'given'; readonly classifications: readonly string[] }
  /** An earlier look gave it, at least so long ago, and what it rested on was looked at again. */
  | { readonly kind: 'given-before'; readonly classification: string; readonly hours: number }
  | { readonly kind: 'switch'; readonly switch: Switch; readonly options: readonly string[] }
  | Test;

const no = (): boolean => false;
const yes = (): boolean => true;
const nothing = (): void => {};
const never: Judge<unknown> = { holds: no, explain: nothing, restsOnAge: no };
const always: Judge<unknown> = { holds: yes, explain: nothing, restsOnAge: no };

/**
 * The condition as functions over the source.
 *
 * Takes    besides: terms of which nothing is to be known.
 */
export function judgeCondition<S>(condition: Condition, ground: Ground<S>, besides: ReadonlySet<string> = new Set()): Judge<S> {
  const judge = (one: Condition): Judge<S> => judgeCondition(one, ground, besides);
  switch (condition.kind) {
    case 'all':
      return all(condition.of.map(judge));
    case 'any':
      return atLeast(1, condition.of.map(judge));
    case 'at-least':
      return atLeast(condition.count, condition.of.map(judge));
    case 'none':
      return not(atLeast(1, condition.of.map(judge)));
    case 'not':
      return not(judge(condition.of));
    case 'named':
      return judgeCondition(condition.of, ground, condition.besides.length === 0 ? besides : new Set([...besides, ...condition.besides]));
    case 'given':
      return atLeast(1, condition.classifications.map(ground.given));
    case 'given-before':
      return givenBefore(condition, ground);
    case 'switch':
      return condition.options.includes(ground.optionOf(condition.switch) ?? '') ? always : never;
    default:
      return besides.has(condition.term) ? never : judgeTest(condition, ground);
  }
}

function all<S>(parts: readonly Judge<S>[]): Judge<S> {
  if (parts.includes(never as Judge<S>)) return never;
  const counted = parts.filter((part) => part !== always);
  const [first, second] = counted;
  if (first === undefined) return always;
  if (second === undefined) return first;
  const tests = counted.map((part) => part.holds);
  return {
    holds: (source) => {
      for (const test of tests) if (!test(source)) return false;
      return true;
    },
    explain: (source, because) => {
      for (const part of counted) part.explain(source, because);
    },
    restsOnAge: (source) => counted.some((part) => part.restsOnAge(source)),
  };
}

function atLeast<S>(count: number, parts: readonly Judge<S>[]): Judge<S> {
  const counted = parts.filter((part) => part !== never);
  if (count === 1 && counted.includes(always as Judge<S>)) return always;
  const [first] = counted;
  if (first === undefined || counted.length < count) return never;
  if (count === 1 && counted.length === 1) return first;
  const tests = counted.map((part) => part.holds);
  return {
    holds: (source) => {
      let found = 0;
      for (const test of tests) if (test(source) && ++found === count) return true;
      return false;
    },
    explain: (source, because) => {
      for (const part of counted) if (part.holds(source)) part.explain(source, because);
    },
    restsOnAge: (source) => counted.filter((part) => part.holds(source) && !part.restsOnAge(source)).length < count,
  };
}

function not<S>(part: Judge<S>): Judge<S> {
  if (part === never) return always;
  if (part === always) return never;
  return { holds: (source) => !part.holds(source), explain: nothing, restsOnAge: no };
}

/** The name under which a reason tells that it was found before. */
const before = 'givenBefore';

function givenBefore<S>({ classification, hours }: Extract<Condition, { kind: 'given-before' }>, ground: Ground<S>): Judge<S> {
  const hoursAgo = ground.givenBefore(classification);
  return {
    holds: (source) => (hoursAgo(source) ?? -1) >= hours,
    explain: (_, because) => because.push({ finding: before, value: true }),
    restsOnAge: no,
  };
}

/** What is held for a term; `given <classification>` is true for one that is given, `given-before <classification>` hours. */
export type Lookup = (term: string) => Value;

const judges = new WeakMap<Condition, Judge<Lookup>>();

/**
 * Whether the condition holds over what the lookup knows, under the default switches of the protocol.
 *
 * Unknown counts as not found, so `grunting` is false and `not grunting` is true. An age that is not known could be any.
 * For one protocol over many cases use interpret.ts, which prepares its conditions once.
 */
export function holds(condition: Condition, lookup: Lookup): boolean {
  let judge = judges.get(condition);
  if (judge === undefined) {
    judge = judgeCondition(condition, ground);
    judges.set(condition, judge);
  }
  return judge.holds(lookup);
}

const byDefault = (): undefined => undefined;

const ground: Ground<Lookup> = {
  read: (term: string) => (lookup: Lookup) => lookup(term),
  show: (term: string) => (lookup: Lookup) => ({ finding: term, value: lookup(term) }),
  bandsOf: (finding: NumberLine) => finding.bands,
  lineOf: (limit: Limit) => lineOf(limit, byDefault),
  optionOf: (one: Switch) => one.options[0],
  restsOnAge: (term: string) => (lookup: Lookup) => term === ageTerm && !isKnown(lookup(term)),
  given: (classification: string) => ({
    holds: (lookup: Lookup) => lookup(`given ${classification}`) === true,
    explain: () => {},
    restsOnAge: () => false,
  }),
  givenBefore: (classification: string) => (lookup: Lookup) => {
    const hours = lookup(`given-before ${classification}`);
    return typeof hours === 'number' ? hours : undefined;
  },
};
