// A referral as a ServiceRequest, and how far it came as the Task that fulfils it: left, arrived, outcome. Next: fhir-task.ts.

import type { ServiceRequest, Task } from 'fhir/r4.js';
import { dateTime, type FhirParts, idOf, own, refer } from './fhir-concepts.ts';
import type { ExportedReferral } from './month.ts';

const priorities = { urgent: 'stat', refer: 'urgent' } as const;

/** What a family refuses may be taken up again any day. */
const requestStatus = { advised: 'active', left: 'active', arrived: 'active', refused: 'on-hold', closed: 'completed' } as const;
const taskStatus = { advised: 'requested', left: 'in-progress', arrived: 'in-progress', refused: 'rejected', closed: 'completed' } as const;

export function referralResources(referral: ExportedReferral, parts: FhirParts): [ServiceRequest, Task] {
  const { month, speak } = parts;
  const { key, state, receiving, leftAt, arrivedAt, outcome, reason } = referral;
  const isLost = state === 'closed' && (outcome === 'not-known' || outcome === null);
  const request: ServiceRequest = {
    resourceType: 'ServiceRequest',
    id: idOf('ServiceRequest', key),
    status: isLost ? 'unknown' : requestStatus[state],
    intent: 'order',
    priority: priorities[referral.urgency],
    code: { text: speak(`register.urgency.${referral.urgency}`) },
    subject: refer('Patient', referral.baby),
    authoredOn: dateTime(referral.at, month),
    ...(receiving === null ? {} : { performer: [refer('Organization', receiving)] }),
  };
  const task: Task = {
    resourceType: 'Task',
    id: idOf('Task', key),
    status: isLost ? 'failed' : taskStatus[state],
    ...(reason === null ? {} : { statusReason: own('refusal-reason', reason, speak(`referral.reason.${reason}`), parts) }),
    businessStatus: own('referral-state', state, state, parts),
    intent: 'order',
    priority: priorities[referral.urgency],
    focus: refer('ServiceRequest', key),
    for: refer('Patient', referral.baby),
    authoredOn: dateTime(referral.at, month),
    ...(leftAt === null && arrivedAt === null
      ? {}
      : {
          executionPeriod: {
            ...(leftAt === null ? {} : { start: dateTime(leftAt, month) }),
            ...(arrivedAt === null ? {} : { end: dateTime(arrivedAt, month) }),
          },
        }),
    ...(outcome === null
      ? {}
      : {
          output: [
            {
              type: { text: 'outcome' },
              valueCodeableConcept: own('referral-outcome', outcome, speak(`referral.news.${outcome}`), parts),
            },
          ],
        }),
  };
  return [request, task];
}
