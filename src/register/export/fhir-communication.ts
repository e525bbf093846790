// Alerts and texts as Communications. A de-identified one says that a text went out, and neither its words nor to whom.
// Next: fhir-bundle.ts.

import type { Communication } from 'fhir/r4.js';
import { dateTime, type FhirParts, idOf, own, refer } from './fhir-concepts.ts';
import type { ExportedAlert, ExportedText } from './month.ts';

const alertStatus = { open: 'in-progress', taken: 'completed', closed: 'completed' } as const;
const textStatus = {
  due: 'preparation',
  sent: 'completed',
  delivered: 'completed',
  unknown: 'unknown',
  undelivered: 'not-done',
  'given-up': 'not-done',
} as const;

/** `received`: when somebody took it. */
export function alertCommunication(alert: ExportedAlert, parts: FhirParts): Communication {
  return {
    resourceType: 'Communication',
    id: idOf('Communication', alert.key),
    status: alertStatus[alert.state],
    category: [own('message', 'alert', 'alert to the nurse on call', parts)],
    priority: 'stat',
    subject: refer('Patient', alert.baby),
    sent: dateTime(alert.at, parts.month),
    ...(alert.takenAt === null ? {} : { received: dateTime(alert.takenAt, parts.month) }),
  };
}

export function textCommunication(text: ExportedText, parts: FhirParts): Communication {
  return {
    resourceType: 'Communication',
    id: idOf('Communication', text.key),
    status: textStatus[text.state],
    category: [own('message', 'text', 'text message', parts)],
    priority: text.urgent ? 'stat' : 'routine',
    subject: refer('Patient', text.baby),
    ...(text.state === 'due' ? {} : { sent: dateTime(text.at, parts.month) }),
    ...(text.recipient === null ? {} : { recipient: [{ display: text.recipient }] }),
    ...(text.text === null ? {} : { payload: [{ contentString: text.text }] }),
  };
}
