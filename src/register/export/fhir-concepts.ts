// The small parts that resources are made of: ids, references, own concepts, times, quantities. Nothing empty is ever written:
// FHIR R4 forbids an empty string, list or object. Next: fhir-bundle.ts.

import { createHash } from 'node:crypto';
import type { CodeableConcept, Identifier, Quantity, Reference } from 'fhir/r4.js';
import { DateTime } from 'luxon';
import type { Finding } from '../../clinical/protocol.ts';
import type { SayValue } from '../../dialog/reply.ts';
import type { FhirCodes } from './fhir-codes.ts';
import type { RegisterMonth } from './month.ts';

export interface FhirParts {
  readonly month: RegisterMonth;
  readonly codes: FhirCodes;
  readonly findings: ReadonlyMap<string, Finding>;
  readonly has: (key: string) => boolean;
  /** The words of a key, in the language of the export. */
  readonly speak: (key: string, values?: Readonly<Record<string, SayValue>>) => string;
  readonly facilityName: (id: string) => string;
}

/** The same key gives the same id, so that an export that is sent again finds what it sent before. A key may be too long for one. */
export function idOf(...key: readonly string[]): string {
  return createHash('sha256').update(key.join('\n')).digest('hex').slice(0, 32);
}

export function refer(type: string, ...key: readonly string[]): Reference {
  return { reference: `${type}/${idOf(type, ...key)}` };
}

export type OwnSystem =
  | 'finding'
  | 'option'
  | 'classification'
  | 'urgency'
  | 'check'
  | 'work'
  | 'referral-state'
  | 'referral-outcome'
  | 'refusal-reason'
  | 'message';

/** A concept of this project's own, with its words. */
export function own(system: OwnSystem, code: string, text: string, { codes }: Pick<FhirParts, 'codes'>): CodeableConcept {
  // A code may hold no blank; an option and its finding are joined by a sign that no name holds.
  return { coding: [{ system: `${codes.base}/${system}`, code }], text: text || code };
}

export function identifier(
  kind: 'baby' | 'baby-code' | 'card' | 'facility' | 'worker',
  value: string,
  { codes }: Pick<FhirParts, 'codes'>,
): Identifier {
  return { system: `${codes.base}/${kind}`, value };
}

/** What the findings and fields are called; under their own name when no other system has one for them. */
export function codeOf(of: string, text: string, parts: FhirParts): CodeableConcept {
  const loinc = parts.codes.loinc.get(of);
  if (loinc === undefined) return own('finding', of, text, parts);
  return { coding: loinc.codings.map(({ code, display }) => ({ system: 'http://loinc.org', code, display })), text: text || of };
}

export function quantity(value: number, unit: string | undefined, { codes }: Pick<FhirParts, 'codes'>): Quantity {
  const ucum = unit === undefined ? undefined : codes.ucum.get(unit);
  if (unit === undefined || unit === '') return { value };
  return ucum === undefined ? { value, unit } : { value, unit, system: 'http://unitsofmeasure.org', code: ucum };
}

/** The instant with the facility's offset; of a de-identified month the day that its week begins. */
export function dateTime(at: number, month: RegisterMonth): string {
  const then = DateTime.fromMillis(at, { zone: month.zone });
  return month.precision === 'week' ? dateOf(at, month) : then.toFormat("yyyy-MM-dd'T'HH:mm:ssZZ");
}

export function dateOf(at: number, { zone }: RegisterMonth): string {
  return DateTime.fromMillis(at, { zone }).toFormat('yyyy-MM-dd');
}
