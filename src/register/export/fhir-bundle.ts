// A month as a FHIR R4 Bundle: a transaction of PUTs by ids that follow from the register's own keys. A server that is sent the
// same month twice, or a later state of it, updates what it has and doubles nothing; a collection would leave that to the receiver.
// One file for each kind of resource. Validated in tests/register/export/.

import type { Bundle, FhirResource } from 'fhir/r4.js';
import { alertCommunication, textCommunication } from './fhir-communication.ts';
import type { FhirParts } from './fhir-concepts.ts';
import { encounterOf } from './fhir-encounter.ts';
import { observationsOf } from './fhir-observations.ts';
import { organizationOf, patientOf } from './fhir-patient.ts';
import { referralResources } from './fhir-referral.ts';
import { riskAssessmentOf } from './fhir-risk-assessment.ts';
import { taskOf } from './fhir-task.ts';

export function bundleOf(parts: FhirParts): Bundle {
  const { month, codes } = parts;
  const places = new Set([
    ...(month.facility === null ? [] : [month.facility.id]),
    ...month.referrals.flatMap(({ receiving }) => receiving ?? []),
  ]);
  const resources: FhirResource[] = [
    ...[...places].map((id) => organizationOf(id, parts)),
    ...month.babies.map((baby) => patientOf(baby, parts)),
    ...month.examinations.flatMap((one) => [encounterOf(one, parts), ...observationsOf(one, parts), riskAssessmentOf(one, parts)]),
    ...month.referrals.flatMap((referral) => referralResources(referral, parts)),
    ...month.alerts.map((alert) => alertCommunication(alert, parts)),
    ...month.texts.map((text) => textCommunication(text, parts)),
    ...month.work.map((work) => taskOf(work, parts)),
  ];
  return {
    resourceType: 'Bundle',
    type: 'transaction',
    ...(resources.length === 0 ? {} : { entry: resources.map((resource) => entryOf(resource, codes.base)) }),
  };
}

function entryOf(resource: FhirResource, base: string) {
  const place = `${resource.resourceType}/${resource.id}`;
  return { fullUrl: `${base}/${place}`, resource, request: { method: 'PUT' as const, url: place } };
}
