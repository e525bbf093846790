// Whether a condition can hold for any baby at all, and by which values. What is computed is taken for free of what it is computed
// from, so "cannot" is certain and "can" is not. Next: possible-values.ts, never-holds.ts.

import { bandsUnder, lineOf } from '../../clinical/bands.ts';
import type { Condition } from '../../clinical/condition.ts';
import type { Judge } from '../../clinical/judge.ts';
import { judgeTest } from '../../clinical/judge-test.ts';
import type { ClassificationRule, Protocol } from '../../clinical/protocol.ts';
import type { Test } from '../../clinical/test-kinds.ts';
import type { Value } from '../../clinical/value.ts';
import { keyOf } from './condition-key.ts';
import { settingsOf } from './limit-settings.ts';
import type { PossibleValues } from './possible-values.ts';

/** By term, and `switch <id>`, `given <classification>`: the values that are left. */
export type Left = ReadonlyMap<string, readonly Value[]>;

interface Goal {
  readonly condition: Condition;
  readonly holds: boolean;
  /** Terms of which nothing is to be known. */
  readonly besides: readonly string[];
  /** True: it belongs to a rule that must be met for "is given". */
  readonly isRule: boolean;
}

/** So many steps are tried; what is not settled by then is taken to be possible. */
const mostSteps = 20_000;

interface Split {
  readonly yes: ReadonlySet<Value>;
  readonly no: ReadonlySet<Value>;
}

interface Settled {
  readonly byTest: WeakMap<Test, Split>;
  readonly byWords: Map<string, Split>;
}

/** The same for every search over the same values. */
const settledFor = new WeakMap<PossibleValues, Settled>();

export class Search {
  private readonly protocol: Protocol;
  private readonly possible: PossibleValues;
  private readonly possibleToRules: PossibleValues;
  private readonly rules: ReadonlyMap<string, ClassificationRule>;
  private readonly settled: Settled;
  private steps = 0;

  /** Takes    toRules: what rules behind "is given" can see, where that is more than what the condition itself can. */
  constructor(protocol: Protocol, possible: PossibleValues, toRules = possible) {
    this.protocol = protocol;
    this.possible = possible;
    this.possibleToRules = toRules;
    this.settled = settledFor.get(toRules) ?? { byTest: new WeakMap(), byWords: new Map() };
    settledFor.set(toRules, this.settled);
    this.rules = new Map(protocol.classifications.map((rule) => [rule.id, rule]));
  }

  canHold(condition: Condition, left: Left = new Map()): boolean {
    return this.first(condition, left) !== null;
  }

  /** Values by which it holds; null: there are none. */
  first(condition: Condition, left: Left = new Map()): Left | null {
    this.steps = 0;
    const [found] = this.solve([{ condition, holds: true, besides: [], isRule: false }], left);
    return found ?? (this.steps >= mostSteps ? left : null);
  }

  private *solve(goals: readonly Goal[], left: Left): Generator<Left> {
    const [goal, ...rest] = goals;
    if (goal === undefined) {
      yield left;
      return;
    }
    if (++this.steps >= mostSteps) return;
    const { condition, holds, besides, isRule } = goal;
    const same = (one: Condition, now = holds): Goal => ({ ...goal, condition: one, holds: now });
    switch (condition.kind) {
      case 'all':
      case 'any':
        if ((condition.kind === 'all') === holds) yield* this.solve([...condition.of.map((one) => same(one)), ...rest], left);
        else for (const one of condition.of) yield* this.solve([same(one), ...rest], left);
        return;
      case 'none':
        yield* this.solve([same({ kind: 'any', of: condition.of }, !holds), ...rest], left);
        return;
      case 'not':
        yield* this.solve([same(condition.of, !holds), ...rest], left);
        return;
      case 'at-least':
        for (const chosen of chosenFrom(condition.of, holds ? condition.count : condition.of.length - condition.count + 1))
          yield* this.solve([...chosen.map((one) => same(one)), ...rest], left);
        return;
      case 'named':
        yield* this.solve([{ ...same(condition.of), besides: [...besides, ...condition.besides] }, ...rest], left);
        return;
      case 'switch':
        yield* this.narrowed(
          `switch ${condition.switch.id}`,
          condition.switch.options,
          (option) => condition.options.includes(String(option)) === holds,
          rest,
          left,
        );
        return;
      // Free: any baby may have been seen before.
      case 'given-before':
        yield* this.narrowed(keyOf(condition), [false, true], (value) => value === holds, rest, left);
        return;
      case 'given':
        yield* this.solveGiven(condition.classifications, holds, rest, left);
        return;
      default:
        if (besides.includes(condition.term)) {
          if (!holds) yield* this.solve(rest, left);
          return;
        }
        if (condition.kind === 'compared' && 'term' in condition.to) {
          yield* this.solve(rest, left);
          return;
        }
        yield* this.narrowed(
          condition.term,
          this.valuesOf(condition.term, isRule),
          (value) => this.judged(condition)[holds ? 'yes' : 'no'].has(value),
          rest,
          left,
        );
    }
  }

  private *narrowed(
    term: string,
    all: readonly Value[],
    fits: (value: Value) => boolean,
    rest: readonly Goal[],
    left: Left,
  ): Generator<Left> {
    const values = (left.get(term) ?? all).filter(fits);
    if (values.length > 0) yield* this.solve(rest, new Map([...left, [term, values]]));
  }

  /** Given: by one of its rules. That it is not given is only noted: what else could keep it away is not searched. */
  private *solveGiven(ids: readonly string[], holds: boolean, rest: readonly Goal[], left: Left): Generator<Left> {
    const noted = (id: string, isGiven: boolean, before: Left): Left | null => {
      const values = (before.get(`given ${id}`) ?? [false, true]).filter((value) => value === isGiven);
      return values.length === 0 ? null : new Map([...before, [`given ${id}`, values]]);
    };
    if (!holds) {
      const none = ids.reduce<Left | null>((before, id) => before && noted(id, false, before), left);
      if (none !== null) yield* this.solve(rest, none);
      return;
    }
    for (const id of ids) {
      const given = noted(id, true, left);
      const rule = this.rules.get(id);
      if (given === null || rule === undefined) continue;
      const when: Goal = { condition: { kind: 'any', of: rule.rules.map((one) => one.when) }, holds: true, besides: [], isRule: true };
      const unless: Goal[] = rule.unless === undefined ? [] : [{ condition: rule.unless, holds: false, besides: [], isRule: true }];
      yield* this.solve([when, ...unless, ...rest], given);
    }
  }

  private valuesOf(term: string, isRule: boolean): readonly Value[] {
    return (isRule ? this.possibleToRules : this.possible)(term);
  }

  /** The values by which a test holds under some choice of switches, and those by which it does not. */
  private judged(test: Test): Split {
    const { byTest, byWords } = this.settled;
    const seen = byTest.get(test);
    if (seen !== undefined) return seen;
    const key = keyOf(test);
    const found = byWords.get(key) ?? this.split(test);
    byTest.set(test, found);
    byWords.set(key, found);
    return found;
  }

  private split(test: Test): Split {
    const judges = judgesOf(test, this.protocol);
    const values = this.valuesOf(test.term, true);
    return {
      yes: new Set(values.filter((value) => judges.some((judge) => judge.holds(value)))),
      no: new Set(values.filter((value) => judges.some((judge) => !judge.holds(value)))),
    };
  }
}

/** The test as a function of the term's value, under each choice of switches that moves its lines. */
export function judgesOf(test: Test, protocol: Protocol): Judge<Value>[] {
  const limits =
    test.kind === 'beside-line'
      ? [test.limit]
      : 'finding' in test
        ? test.finding.bands.flatMap(({ limit }) => protocol.limits.get(limit ?? '') ?? [])
        : [];
  return settingsOf(limits, protocol).map(({ chosen }) =>
    judgeTest<Value>(test, {
      read: () => (value) => value,
      show: (term) => (value) => ({ finding: term, value }),
      bandsOf: (finding) => bandsUnder(finding, protocol.limits, chosen),
      lineOf: (limit) => lineOf(limit, chosen),
      optionOf: (one) => chosen(one.id),
      restsOnAge: () => () => false,
      given: () => ({ holds: () => false, explain: () => {}, restsOnAge: () => false }),
      givenBefore: () => () => undefined,
    }),
  );
}

function* chosenFrom(all: readonly Condition[], count: number): Generator<readonly Condition[]> {
  if (count <= 0) {
    yield [];
    return;
  }
  for (const [at, one] of all.entries()) for (const others of chosenFrom(all.slice(at + 1), count - 1)) yield [one, ...others];
}
