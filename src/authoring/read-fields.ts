// Reads fields.yaml: the fields of the case, written like the numbers of findings.yaml, and what is computed from them.
// Next: vocabulary.ts, where conditions find them.

import type { NumberFinding, ReferenceLines } from '../clinical/protocol.ts';
import { readBands, readRange } from './read-findings.ts';
import type { Field } from './vocabulary.ts';
import { fieldsOf, itemsOf, needed, numberOf, type Place, type Report, textOf } from './yaml-source.ts';

export interface Fields {
  readonly measures: readonly NumberFinding[];
  readonly lines: ReferenceLines;
}

const lineNames = {
  'weight-stands-in-until-hours': 'weightStandsInUntilHours',
  'dose-from-birth-weight-until-hours': 'doseFromBirthWeightUntilHours',
  'at-birth-until-hours': 'atBirthUntilHours',
  'preterm-before-weeks': 'pretermBeforeWeeks',
  'small-below-centile': 'smallBelowCentile',
  'large-above-centile': 'largeAboveCentile',
  'day-of-week': 'dayOfWeek',
} as const satisfies Record<string, keyof ReferenceLines>;

export const noFields: Fields = {
  measures: [],
  lines: Object.fromEntries(Object.values(lineNames).map((name) => [name, 0])) as unknown as ReferenceLines,
};

export function readFields(top: Place, report: Report): Fields {
  const fields = fieldsOf(top, ['fields', 'lines'], report);
  const linesPlace = needed(fields, 'lines', top, report);
  return { measures: readMeasures(fields.get('fields'), report), lines: linesPlace ? readLines(linesPlace, report) : noFields.lines };
}

function readLines(place: Place, report: Report): ReferenceLines {
  const fields = fieldsOf(place, Object.keys(lineNames), report);
  const entries = Object.entries(lineNames).map(([written, name]) => {
    const line = needed(fields, written, place, report);
    return [name, (line && numberOf(line, report)) ?? 0];
  });
  return Object.fromEntries(entries) as unknown as ReferenceLines;
}

function readMeasures(list: Place | undefined, report: Report): NumberFinding[] {
  return (list ? itemsOf(list) : []).flatMap((item) => {
    const fields = fieldsOf(item, ['field', 'unit', 'range', 'decimals', 'bands'], report);
    const idPlace = needed(fields, 'field', item, report);
    const id = idPlace && textOf(idPlace, report);
    const unitPlace = needed(fields, 'unit', item, report);
    const unit = unitPlace && textOf(unitPlace, report);
    const range = readRange(fields, item, report);
    const decimals = fields.get('decimals');
    const bands = fields.get('bands');
    if (!id || !unit || range === null) return [];
    return {
      id,
      group: 'case',
      kind: 'number' as const,
      rows: [],
      at: 'both' as const,
      danger: false,
      notDoneUnlisted: true,
      unit,
      ...range,
      decimals: decimals ? (numberOf(decimals, report) ?? 0) : 0,
      judgedRounded: false,
      readings: 1,
      holds: [],
      holdsUntil: {},
      bands: bands ? readBands(bands, range, new Map(), report) : [],
    };
  });
}

/** Other units that an author may write, and what one of them is worth in the field's own. */
const otherUnits: Readonly<Record<string, Readonly<Record<string, number>>>> = { age: { min: 1 / 60, days: 24 } };

/** What is computed from the case; its values are made by src/clinical/lay-case.ts. */
const computedFields: readonly (readonly [string, Field])[] = [
  ['sex', { kind: 'choice', options: ['girl', 'boy', 'not-clear'] }],
  ['size', { kind: 'choice', options: ['appropriate', 'small', 'large'] }],
  ['weight-change', { kind: 'number', units: { '%': 1 } }],
  ['weight-gain', { kind: 'number', units: { 'g/kg/day': 1 } }],
  ['weight-for-age', { kind: 'number', units: { z: 1 } }],
  ['head-centile', { kind: 'number', units: { centile: 1 } }],
  ['head-growth', { kind: 'number', units: { 'cm/week': 1 } }],
  ['saturation-difference', { kind: 'number', units: { points: 1 } }],
  ['bilirubin-treatment-line', { kind: 'number', units: { 'umol/L': 1 } }],
  ['bilirubin-exchange-line', { kind: 'number', units: { 'umol/L': 1 } }],
];

export function fieldVocabulary(measures: readonly NumberFinding[]): Map<string, Field> {
  const own = measures.map((measure): [string, Field] => [
    measure.id,
    { kind: 'number', units: { [measure.unit]: 1, ...otherUnits[measure.id] }, measure },
  ]);
  return new Map<string, Field>([...own, ...computedFields]);
}
