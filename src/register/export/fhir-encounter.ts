// An examination as an Encounter: who was looked at, when it ended, in which kind of check. Next: fhir-observations.ts.

import type { Encounter } from 'fhir/r4.js';
import { dateTime, type FhirParts, identifier, idOf, own, refer } from './fhir-concepts.ts';
import type { ExportedExamination } from './month.ts';

export function encounterOf(examination: ExportedExamination, parts: FhirParts): Encounter {
  const { month, speak } = parts;
  const { flow, worker } = examination;
  return {
    resourceType: 'Encounter',
    id: idOf('Encounter', examination.key),
    status: examination.isFinished ? 'finished' : 'unknown',
    // The register does not know whether a bed was involved; ambulatory is the class that claims least.
    class: { system: 'http://terminology.hl7.org/CodeSystem/v3-ActCode', code: 'AMB', display: 'ambulatory' },
    ...(flow === null ? {} : { type: [own('check', flow, speak(`register.check.${flow}`), parts)] }),
    subject: refer('Patient', examination.baby),
    ...(worker === null
      ? {}
      : { participant: [{ individual: { type: 'Practitioner', identifier: identifier('worker', worker, parts) } }] }),
    period: { end: dateTime(examination.at, month) },
    ...(month.facility === null ? {} : { serviceProvider: refer('Organization', month.facility.id) }),
  };
}
