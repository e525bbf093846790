// What falls due for a baby as Tasks: second looks, later contacts, questions after a referral. Next: fhir-communication.ts.

import type { Task } from 'fhir/r4.js';
import { dateTime, type FhirParts, idOf, own, refer } from './fhir-concepts.ts';
import type { ExportedWork } from './month.ts';

const statuses = { pending: 'requested', done: 'completed', missed: 'failed', void: 'cancelled' } as const;

export function taskOf(work: ExportedWork, parts: FhirParts): Task {
  return {
    resourceType: 'Task',
    id: idOf('Task', work.key),
    status: statuses[work.state],
    intent: 'order',
    code: own('work', work.work, work.work.replaceAll('-', ' '), parts),
    for: refer('Patient', work.baby),
    restriction: { period: { end: dateTime(work.dueAt, parts.month) } },
  };
}
