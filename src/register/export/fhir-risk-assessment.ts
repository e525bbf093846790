// What the findings mean as one RiskAssessment for each examination: classifications with their urgency, resting on Observations.
// Not Conditions: a classification is a reckoning from signs that no clinician has confirmed, and half of them say that nothing is
// wrong; on a problem list they would be read as diagnoses for years. Next: fhir-referral.ts.

import type { RiskAssessment, RiskAssessmentPrediction } from 'fhir/r4.js';
import type { Classification } from '../../clinical/protocol.ts';
import { reasonsFor } from '../../dialog/phrases.ts';
import { dateTime, type FhirParts, idOf, own, refer } from './fhir-concepts.ts';
import { observationIds } from './fhir-observations.ts';
import type { ExportedExamination } from './month.ts';

export function riskAssessmentOf(examination: ExportedExamination, parts: FhirParts): RiskAssessment {
  const { month, codes, speak } = parts;
  const given = examination.found?.interpretation.classifications ?? [];
  const basis = [...new Set(given.flatMap(({ because }) => because.flatMap(({ finding }) => observationIds(examination, finding))))];
  return {
    resourceType: 'RiskAssessment',
    id: idOf('RiskAssessment', examination.key),
    status: 'final',
    ...(examination.version === null ? {} : { method: { text: `pipit protocol ${examination.version}` } }),
    code: own('urgency', examination.urgency, speak(`register.urgency.${examination.urgency}`), { codes }),
    subject: refer('Patient', examination.baby),
    encounter: refer('Encounter', examination.key),
    occurrenceDateTime: dateTime(examination.at, month),
    ...(basis.length === 0 ? {} : { basis: basis.map((id) => ({ reference: `Observation/${id}` })) }),
    ...(given.length === 0 ? {} : { prediction: given.map((one) => predictionOf(one, parts)) }),
  };
}

function predictionOf(one: Classification, parts: FhirParts): RiskAssessmentPrediction {
  const { speak } = parts;
  const reasons = reasonsFor([one], parts)
    .map(({ key, values }) => speak(key, values))
    .join('; ');
  return {
    outcome: own('classification', one.id, speak(`classifications.${one.id}`), parts),
    qualitativeRisk: own('urgency', one.urgency, speak(`register.urgency.${one.urgency}`), parts),
    ...(reasons === '' ? {} : { rationale: reasons }),
  };
}
