// What no reference case stands beside: a classification that none expects, a number that decides something and has no case
// on both sides of it. The numbers are found in the rules themselves (decided-lines.ts), so a new rule asks for its cases.

import { Slots } from '../../clinical/facts.ts';
import { layCase } from '../../clinical/lay-case.ts';
import type { Protocol } from '../../clinical/protocol.ts';
import { readingsOf } from '../../clinical/readings.ts';
import { isKnown } from '../../clinical/value.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import type { DecidedLine } from './decided-line.ts';
import { decidedLines } from './decided-lines.ts';
import { definitionsIn } from './definitions.ts';
import { defaultOf } from './limit-settings.ts';

const why = 'An edit could move it, and no sick baby would be missed by any case.';

/** Warnings: a protocol may be tried out before its cases are written. They stand at the rule that has no case. */
export function checkFloorCoverage(
  cases: readonly ReferenceCase[],
  protocol: Protocol,
  sources: readonly SourceFile[],
  report: Report,
): void {
  const placeOf = definitionsIn(sources);
  const warn = (owner: string, what: string, fix: string): void => {
    const place = placeOf(owner);
    report({ ...complain(place, place.range, 'floor/not-covered', what, why, fix), severity: 'warning' });
  };
  const expected = new Set(cases.flatMap((one) => one.expected.classifications.map(({ id }) => id)));
  for (const { id } of protocol.classifications)
    if (!expected.has(id)) warn(id, `No reference case is "${id}".`, `Add a case whose "classifications" has ${id}.`);
  const slots = new Slots(protocol.findingById);
  const laid = cases.map((one) => layOut(one, slots, protocol));
  const naming = byClassification(laid);
  for (const line of decidedLines(protocol)) {
    const named = line.classifications.length === 0 ? laid : new Set(line.classifications.flatMap((id) => naming.get(id) ?? []));
    const speaking = [...named].filter((one) => speaksTo(one, line, protocol));
    for (const side of sides) {
      if (speaking.some((one) => one.values(line.term).some((value) => isBeside(value, line, side)))) continue;
      warn(line.owner, `No reference case has ${said(line, side, protocol)}.`, fixFor(line));
    }
  }
}

const sides = ['below', 'past'] as const;
type Side = (typeof sides)[number];

interface LaidOut {
  readonly case: ReferenceCase;
  readonly named: ReadonlySet<string>;
  /** The case's readings of a term; none where it says nothing of it. */
  readonly values: (term: string) => readonly number[];
  readonly isRecorded: (term: string) => boolean;
}

function byClassification(laid: readonly LaidOut[]): Map<string, LaidOut[]> {
  const naming = new Map<string, LaidOut[]>();
  for (const one of laid) for (const id of one.named) naming.set(id, [...(naming.get(id) ?? []), one]);
  return naming;
}

/** The case with what is computed from it, once for all lines. */
function layOut(one: ReferenceCase, slots: Slots, protocol: Protocol): LaidOut {
  const { values, computed } = layCase(protocol, slots, { ...one.input, unlisted: 'not-assessed' });
  const recordedFor = (term: string) => values[slots.of(term)];
  const size = computed.sizeForGestation;
  return {
    case: one,
    named: new Set([...one.expected.not, ...one.expected.classifications.map(({ id }) => id)]),
    values: (term) => (term !== 'size' ? readingsOf(recordedFor(term)) : size !== null && 'centile' in size ? [size.centile] : []),
    isRecorded: (term) => isKnown(recordedFor(term)),
  };
}

/** Whether the line matters to a case that names one of its classifications. */
function speaksTo({ case: { input }, isRecorded }: LaidOut, line: DecidedLine, protocol: Protocol): boolean {
  const { besideAny, options, ages } = line;
  return (
    options.every(([id, wanted]) => wanted.includes(input.switches?.[id] ?? defaultOf(protocol, id) ?? '')) &&
    (besideAny.length === 0 || besideAny.some(isRecorded)) &&
    (ages === undefined || isBetween(input.ageHours ?? null, ages))
  );
}

const isBetween = (age: number | null, [from, to]: readonly [number, number]): boolean => age !== null && age >= from && age < to;

/** On that side and no more than a step away; on the line itself where the line is a value that can be given. */
function isBeside(value: number, { line, step, isWritten }: DecidedLine, side: Side): boolean {
  const away = Math.abs(value - line.value);
  const isPast = line.over ? value > line.value : value >= line.value;
  return isPast === (side === 'past') && (isOn(line, side) && isWritten ? away === 0 : away <= step * 1.000001);
}

/** Whether the line's own value lies on that side. */
const isOn = (line: DecidedLine['line'], side: Side): boolean => line.over === (side === 'below');

/** What a case on that side would say, such as `temperature 35.4 under low-temperature-line: under-35.0`. */
function said(line: DecidedLine, side: Side, protocol: Protocol): string {
  const { owner, term, options, ages } = line;
  const decider = owner === term ? '' : ` for "${owner}"`;
  const moved = options.filter(([id, wanted]) => !wanted.includes(defaultOf(protocol, id) ?? ''));
  const under = moved.length === 0 ? '' : ` under ${moved.map(([id, wanted]) => `${id}: ${wanted.join(' or ')}`).join(', ')}`;
  const from = ages === undefined ? '' : ` from ${ages[0]} h`;
  return `${term} ${valueOn(line, side)}${decider}${under}${from}`;
}

function valueOn({ line, step, isWritten }: DecidedLine, side: Side): string {
  const decimals = Math.max(0, Math.ceil(-Math.log10(step)));
  const value = isOn(line, side) ? line.value : line.value + (side === 'past' ? step : -step);
  return `${isWritten ? '' : 'of about '}${value.toFixed(decimals)}`;
}

const mostNamed = 4;

function fixFor({ classifications }: DecidedLine): string {
  if (classifications.length === 0) return 'Add one.';
  const more = classifications.length > mostNamed ? ', ...' : '';
  return `Add one; name what it is or is not: ${classifications.slice(0, mostNamed).join(', ')}${more}.`;
}
