// What was found as Observations, one for each reading and each finding that was looked at; a finding that was asked and could not
// be had says so, and one that was never asked is left out. What a finding led to is in fhir-risk-assessment.ts.

import type { Observation } from 'fhir/r4.js';
import type { Case, FindingValue } from '../../clinical/protocol.ts';
import { codeOf, dateTime, type FhirParts, idOf, own, quantity, refer } from './fhir-concepts.ts';
import type { ExportedExamination } from './month.ts';

type Value = Partial<Pick<Observation, 'valueQuantity' | 'valueBoolean' | 'valueCodeableConcept' | 'dataAbsentReason'>>;

const daysPerWeek = 7;

export function observationsOf(examination: ExportedExamination, parts: FhirParts): Observation[] {
  const { found } = examination;
  if (found === null) return [];
  const findings = Object.entries(found.case.findings).flatMap(([of, value]) =>
    valuesOf(value).map((one, reading) => observation(of, reading, recordedValue(of, one, parts), examination, parts)),
  );
  return [...findings, ...measures(found.case, examination, parts)];
}

/** Finding -> references to its Observations, for whatever rests on it. */
export function observationIds(examination: ExportedExamination, of: string): string[] {
  const value = examination.found?.case.findings[of];
  return value === undefined ? [] : valuesOf(value).map((_, reading) => observationId(examination, of, reading));
}

/** Each reading of its own; a finding without any was asked in vain. */
function valuesOf(value: FindingValue): readonly (boolean | string | number | null)[] {
  if (value === null || typeof value !== 'object') return [value];
  return value.length === 0 ? [null] : value;
}

function recordedValue(of: string, value: boolean | string | number | null, parts: FhirParts): Value {
  if (value === null) return { dataAbsentReason: notPerformed };
  if (typeof value === 'boolean') return { valueBoolean: value };
  if (typeof value === 'number') return { valueQuantity: quantity(value, unitOf(of, parts), parts) };
  return { valueCodeableConcept: own('option', `${of}.${value}`, parts.speak(`signs.${of}.${value}`), parts) };
}

const notPerformed = {
  coding: [{ system: 'http://terminology.hl7.org/CodeSystem/data-absent-reason', code: 'not-performed', display: 'Not Performed' }],
};

function unitOf(of: string, { codes, findings }: FhirParts): string | undefined {
  const finding = findings.get(of);
  return codes.loinc.get(of)?.unit ?? (finding !== undefined && 'unit' in finding ? finding.unit : undefined);
}

/** What is known of the baby besides findings. */
function measures(aCase: Case, examination: ExportedExamination, parts: FhirParts): Observation[] {
  const { ageHours, gestation, birthWeightGrams, weightGrams } = aCase;
  const measured: [string, number | null | undefined, string][] = [
    ['age', ageHours == null ? null : Math.floor(ageHours), 'h'],
    ['gestation', gestation ? gestation.weeks * daysPerWeek + (gestation.days ?? 0) : null, 'days'],
    ['birth-weight', birthWeightGrams, 'g'],
    ['weight', weightGrams, 'g'],
  ];
  return measured.flatMap(([of, value, unit]) =>
    value == null ? [] : [observation(of, 0, { valueQuantity: quantity(value, unit, parts) }, examination, parts)],
  );
}

function observation(of: string, reading: number, value: Value, examination: ExportedExamination, parts: FhirParts): Observation {
  const category = parts.codes.loinc.get(of)?.category ?? 'exam';
  return {
    resourceType: 'Observation',
    id: observationId(examination, of, reading),
    status: 'final',
    category: [{ coding: [{ system: 'http://terminology.hl7.org/CodeSystem/observation-category', code: category }] }],
    code: codeOf(of, nameOf(of, parts), parts),
    subject: refer('Patient', examination.baby),
    encounter: refer('Encounter', examination.key),
    effectiveDateTime: dateTime(examination.at, parts.month),
    ...value,
  };
}

function nameOf(of: string, { findings, codes, speak, has }: FhirParts): string {
  const kind = findings.get(of)?.kind;
  if (kind === 'sign' && has(`signs.${of}`)) return speak(`signs.${of}`);
  return codes.loinc.get(of)?.codings[0]?.display ?? of.replaceAll('-', ' ');
}

function observationId({ key }: ExportedExamination, of: string, reading: number): string {
  return idOf('Observation', key, of, String(reading));
}
