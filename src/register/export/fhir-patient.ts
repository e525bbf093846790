// A baby as a Patient, without a name: nobody asks for one. Its facility is an Organization. Next: fhir-encounter.ts.

import type { Organization, Patient } from 'fhir/r4.js';
import { dateOf, type FhirParts, identifier, idOf, refer } from './fhir-concepts.ts';
import type { ExportedBaby } from './month.ts';

const genders = { girl: 'female', boy: 'male', 'not-clear': 'other' } as const;

export function patientOf(baby: ExportedBaby, parts: FhirParts): Patient {
  const { facility } = parts.month;
  return {
    resourceType: 'Patient',
    id: idOf('Patient', baby.id),
    identifier: [
      identifier('baby', baby.id, parts),
      ...(baby.code === null ? [] : [identifier('baby-code', baby.code, parts)]),
      ...(baby.card === null || baby.card === '' ? [] : [identifier('card', baby.card, parts)]),
    ],
    gender: baby.sex === null ? 'unknown' : genders[baby.sex],
    // Of a de-identified baby this is the day that its week of birth begins.
    ...(baby.bornAt === null ? {} : { birthDate: dateOf(baby.bornAt, parts.month) }),
    ...(baby.hasDied ? { deceasedBoolean: true } : {}),
    ...(facility === null ? {} : { managingOrganization: refer('Organization', facility.id) }),
  };
}

export function organizationOf(id: string, parts: FhirParts): Organization {
  return {
    resourceType: 'Organization',
    id: idOf('Organization', id),
    identifier: [identifier('facility', id, parts)],
    name: parts.facilityName(id) || id,
  };
}
