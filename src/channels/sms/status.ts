// The door for delivery reports: what became of a text after the gateway took it. Which text it is stands in the address, as the
// reference that send.ts put there, so that a report finds its text even when the answer to the sending was lost.
// A report that cannot be written is answered 500, and the gateway brings it again. Next: status-fields.ts.

import type { RequestHandler } from 'express';
import { z } from 'zod';
import type { DeliveryReport } from '../../conversation/records.ts';
import { answerGateway, refuseFields } from '../answer-gateway.ts';
import type { DoorLog } from '../door.ts';
import { describeFault } from '../fault.ts';
import { formOf } from '../form.ts';
import { checkSmsProof, isProven, type SmsProof } from './signature.ts';
import { readReport } from './status-fields.ts';

export interface StatusDoor {
  readonly log: DoorLog;
  /** Writes down what became of the text with this reference; of one that nobody queued, nothing. */
  readonly report: (reference: string, report: DeliveryReport) => Promise<void>;
}

/** Address of the door under the public one. */
export const STATUS_PATH = '/sms/status';
const asked = z.object({ text: z.string().regex(/^[0-9a-f]{32}$/) });

/** Where the gateway reports what became of one text. */
export function statusAddress(publicUrl: string, reference: string): string {
  return `${publicUrl.replace(/(?<!\/)\/+$/, '')}${STATUS_PATH}?text=${reference}`;
}

/**
 * Answers `POST /sms/status`, after the form was read.
 *
 * Errors   settings that would let anybody in stop the start; see {@link checkSmsProof}.
 */
export function statusWebhook(door: StatusDoor, proof: SmsProof): RequestHandler {
  checkSmsProof(proof);
  return async (request, response) => {
    if (!isProven(request, proof)) {
      door.log.warn('a delivery report was refused: its signature is missing or wrong');
      answerGateway(response, 403, 'signature missing or wrong');
      return;
    }
    const of = asked.safeParse(request.query);
    const read = readReport(formOf(request));
    if (!of.success || read.kind === 'refused') {
      const fields = [...(of.success ? [] : ['text']), ...(read.kind === 'refused' ? read.fields : [])];
      door.log.warn({ fields }, 'a delivery report was refused: fields missing, sent twice or malformed');
      refuseFields(response, fields);
      return;
    }
    try {
      if (read.kind === 'report') await door.report(of.data.text, read.report);
      response.status(204).end();
    } catch (error) {
      door.log.error({ fault: describeFault(error) }, 'a delivery report could not be written');
      answerGateway(response, 500, 'not written; bring it again');
    }
  };
}
