// Numbers written in conditions (`age < 168 h`), and limits that conditions name (`age past prolonged-jaundice`). A case
// speaks to one when it names a classification that hangs on it, under the switches that stand beside it. Next: decided-lines.ts.

import { lineOf } from '../../clinical/bands.ts';
import type { Condition } from '../../clinical/condition.ts';
import { parts, termIn } from '../../clinical/condition-parts.ts';
import type { Line } from '../../clinical/number-line.ts';
import type { Protocol } from '../../clinical/protocol.ts';
import { type ChosenOptions, type DecidedLine, decidedLine } from './decided-line.ts';
import type { Deciding } from './deciding-conditions.ts';
import { settingsOf } from './limit-settings.ts';

export function ruleLines(protocol: Protocol, deciding: readonly Deciding[]): DecidedLine[] {
  return deciding.flatMap((one) => linesIn(one.condition, { options: [], terms: [] }).flatMap((found) => laid(found, one, protocol)));
}

/** What stands beside a condition, joined to it by "all". */
interface Around {
  readonly options: readonly ChosenOptions[];
  readonly terms: readonly string[];
}

type NumberTest = Extract<Condition, { readonly kind: 'compared' | 'beside-line' }>;

interface Found {
  readonly test: NumberTest;
  readonly around: Around;
}

/** Not those inside a named condition: they are its own. */
function linesIn(condition: Condition, around: Around): Found[] {
  switch (condition.kind) {
    case 'named':
      return [];
    case 'compared':
    case 'beside-line':
      return [{ test: condition, around }];
    case 'all':
      return condition.of.flatMap((part) => linesIn(part, joined(around, besides(condition.of, part))));
    default:
      return parts(condition).flatMap((part) => linesIn(part, around));
  }
}

function besides(all: readonly Condition[], part: Condition): Around {
  const others = all.filter((one) => one !== part);
  return {
    options: others.flatMap((one) => (one.kind === 'switch' ? [[one.switch.id, one.options] as const] : [])),
    terms: others.filter((one) => one.kind !== 'none' && one.kind !== 'not').flatMap(termsUnder),
  };
}

const termsUnder = (condition: Condition): readonly string[] => [...termIn(condition), ...parts(condition).flatMap(termsUnder)];

const joined = (one: Around, other: Around): Around => ({
  options: [...one.options, ...other.options],
  terms: [...one.terms, ...other.terms],
});

/** Where the number lies; for a limit, also where each option of a switch puts it. */
function laid({ test, around }: Found, { owner, isNamed, classifications }: Deciding, protocol: Protocol): DecidedLine[] {
  const at = (line: Line, options: readonly ChosenOptions[]): DecidedLine =>
    decidedLine(protocol, { owner, term: test.term, line, classifications, besideAny: isNamed ? around.terms : [], options });
  if (test.kind === 'compared') {
    if (!('number' in test.to)) return [];
    return [at({ value: test.to.number, over: test.comparator === '>' || test.comparator === '<=' }, around.options)];
  }
  return settingsOf([test.limit], protocol)
    .filter(({ options }) => canBothBe(around.options, options))
    .map(({ chosen, options }) => at(lineOf(test.limit, chosen), narrowed(around.options, options)));
}

/** No switch would have to be set in two ways at once. */
function canBothBe(some: readonly ChosenOptions[], others: readonly ChosenOptions[]): boolean {
  return some.every(([id, options]) => others.every(([other, wanted]) => other !== id || wanted.some((one) => options.includes(one))));
}

/** The second has the last word on a switch that both speak of. */
function narrowed(some: readonly ChosenOptions[], others: readonly ChosenOptions[]): ChosenOptions[] {
  return [...some.filter(([id]) => !others.some(([other]) => other === id)), ...others];
}
