// The door for Kannel's delivery reports. A report that cannot be written is answered 503, and Kannel brings it again.
// Next: status-fields.ts.

import type { RequestHandler } from 'express';
import { answerGateway, refuseFields } from '../answer-gateway.ts';
import { describeFault } from '../fault.ts';
import type { StatusDoor } from '../sms/status.ts';
import { checkKannelProof, isFromKannel, type KannelProof } from './proof.ts';
import { readKannelReport } from './status-fields.ts';

/** Address of the door under the one at which Kannel reaches us. */
export const KANNEL_STATUS_PATH = '/kannel/status';

/**
 * Answers `GET /kannel/status`.
 *
 * Errors   a secret that could be guessed stops the start; see {@link checkKannelProof}.
 */
export function kannelStatus(door: StatusDoor, proof: KannelProof): RequestHandler {
  checkKannelProof(proof);
  return async (request, response) => {
    if (!isFromKannel(request, proof, door.log)) {
      answerGateway(response, 403, 'secret missing or wrong');
      return;
    }
    const read = readKannelReport(request.query);
    if (read.kind === 'refused') {
      door.log.warn({ fields: read.fields }, 'a delivery report was refused: fields missing, sent twice or malformed');
      refuseFields(response, read.fields);
      return;
    }
    try {
      if (read.kind === 'report') await door.report(read.reference, read.report);
      answerGateway(response, 200, '');
    } catch (error) {
      door.log.error({ fault: describeFault(error) }, 'a delivery report could not be written');
      answerGateway(response, 503, 'not written; bring it again');
    }
  };
}
