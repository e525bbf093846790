// The values that a term can take, as many as conditions can tell apart: unknown, each option, and of a number the lines that any
// condition draws with a value on either side of each. For checks that ask whether something can be at all. Next: can-hold.ts.

import type { Condition } from '../../clinical/condition.ts';
import { parts } from '../../clinical/condition-parts.ts';
import type { Limit } from '../../clinical/number-line.ts';
import type { Finding, NumberFinding, Protocol } from '../../clinical/protocol.ts';
import type { Value } from '../../clinical/value.ts';
import type { Vocabulary } from '../vocabulary.ts';

export type PossibleValues = (term: string) => readonly Value[];

/** Takes    conditions: all that are to be judged; a number that none of them names is not a line. */
export function possibleValues(
  { findings, fields }: Pick<Vocabulary, 'findings' | 'fields'>,
  conditions: readonly Condition[],
): PossibleValues {
  const lines = linesIn(conditions);
  const known = new Map<string, readonly Value[]>();
  const valuesOf = (term: string): readonly Value[] => {
    const finding = findings.get(term);
    const field = fields.get(term);
    if (finding !== undefined) return ofFinding(finding, lines.get(term) ?? []);
    if (field === undefined) return [undefined];
    if (field.kind === 'choice') return [undefined, ...field.options];
    return [
      undefined,
      ...(field.measure === undefined ? around(lines.get(term) ?? [], 1) : numbersOf(field.measure, lines.get(term) ?? [])),
    ];
  };
  return (term) => {
    const values = known.get(term) ?? valuesOf(term);
    known.set(term, values);
    return values;
  };
}

function ofFinding(finding: Finding, lines: readonly number[]): readonly Value[] {
  if (finding.kind === 'sign') return [undefined, false, true];
  if (finding.kind === 'choice') return [undefined, ...finding.options];
  const single = numbersOf(finding, lines);
  return [undefined, ...(finding.readings > 1 ? readingsOf(finding, single) : single)];
}

function numbersOf(finding: NumberFinding, lines: readonly number[]): number[] {
  const edges = finding.bands.flatMap(({ from, to }) => [from, to]);
  const step = 10 ** -finding.decimals;
  const all = [finding.low, finding.high, ...around([...edges, ...lines], step)];
  return [...new Set(all.filter((value) => value >= finding.low && value <= finding.high))].sort((a, b) => a - b);
}

const around = (lines: readonly number[], step: number): number[] =>
  [0, ...lines].filter(Number.isFinite).flatMap((line) => [line - step, line, line + step].map((value) => Number(value.toPrecision(12))));

/** One reading; and two or three, each of them in the middle of a band. */
function readingsOf({ bands, readings }: NumberFinding, single: readonly number[]): Value[] {
  const each = bands.map(({ from, to }) => (from + to) / 2);
  const two = each.flatMap((first) => each.map((second) => [first, second]));
  const three =
    readings < 3
      ? []
      : two.flatMap(([first = 0, second = 0]) => [
          [first, first, second],
          [first, second, second],
        ]);
  return [...single, ...two, ...three];
}

/** By term: the numbers that conditions hold it against, wherever a switch puts them. */
function linesIn(conditions: readonly Condition[]): Map<string, number[]> {
  const lines = new Map<string, number[]>();
  const seen = new Set<Condition>();
  const add = (term: string, ...values: number[]) => lines.set(term, [...(lines.get(term) ?? []), ...values]);
  const note = (condition: Condition): void => {
    if (seen.has(condition)) return;
    seen.add(condition);
    if (condition.kind === 'compared' && 'number' in condition.to) add(condition.term, condition.to.number);
    if (condition.kind === 'beside-line') add(condition.term, ...placesOf(condition.limit));
    parts(condition).forEach(note);
  };
  conditions.forEach(note);
  return lines;
}

export const placesOf = ({ line, moved }: Limit): number[] => [line, ...moved.map((move) => move.line)].map(({ value }) => value);

/** Every condition of a protocol on which something hangs for a baby, with what it is called in a sentence. */
export function conditionsOf(protocol: Protocol): Condition[] {
  return [
    ...protocol.classifications.flatMap(({ unless, rules, raised }) => [
      ...(unless === undefined ? [] : [unless]),
      ...[...rules, ...raised].map(({ when }) => when),
    ]),
    ...protocol.conditions.values(),
    ...protocol.needs.map(({ when }) => when),
    ...protocol.contradictions.map(({ when }) => when),
    ...protocol.advice.flatMap(({ when }) => when ?? []),
    ...protocol.doses.flatMap(({ when, already, amounts }) => [
      when,
      ...(already === undefined ? [] : [already]),
      ...amounts.map((one) => one.when),
    ]),
    ...protocol.contacts.schedules.flatMap(({ contacts }) => contacts.flatMap(({ when }) => when ?? [])),
    protocol.bilirubin.atRisk,
    protocol.bilirubin.yellow,
  ];
}
