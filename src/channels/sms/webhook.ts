// The SMS door: parse, verify, normalise, hand on, answer in TwiML. Whose mistake it is decides the status: a post that
// proves nothing is 403, a malformed one 400, our own fault 500 (the gateway then asks its fallback), and a worker who
// sends too much gets silence, because a gateway counts a 429 as our failure. Next: signature.ts, take-text.ts, then ussd/webhook.ts.

import type { Request, RequestHandler, Response } from 'express';
import { answerGateway, refuseFields } from '../answer-gateway.ts';
import type { Door } from '../door.ts';
import { formOf } from '../form.ts';
import { takeText } from '../take-text.ts';
import { readSmsFields } from './fields.ts';
import { checkSmsProof, isProven, type SmsProof } from './signature.ts';
import { toTwiml } from './twiml.ts';

/**
 * Answers `POST /sms`, after the form was read.
 *
 * Errors   settings that would let anybody in stop the start; see {@link checkSmsProof}.
 */
export function smsWebhook(door: Door, proof: SmsProof): RequestHandler {
  checkSmsProof(proof);
  if (!proof.verifySignature) door.log.warn('SMS SIGNATURES ARE NOT CHECKED: anyone can speak as any worker. For development only.');

  return async (request, response) => {
    if (!isFromGateway(door, proof, request)) {
      answerGateway(response, 403, 'signature missing or wrong');
      return;
    }
    const read = readSmsFields(formOf(request));
    if (read.kind === 'refused') {
      door.log.warn({ fields: read.fields }, 'an SMS post was refused: fields missing, sent twice or malformed');
      refuseFields(response, read.fields);
      return;
    }
    const { MessageSid, From, Body, OptOutType } = read.fields;
    const taken = await takeText(door, { gateway: 'sms', from: From, id: `sms:${MessageSid}`, text: Body, optOutType: OptOutType });
    if (taken.kind === 'answered') sendTwiml(response, taken.text);
    else answerGateway(response, 500, 'not answered; try the fallback');
  };
}

function isFromGateway(door: Door, proof: SmsProof, request: Request): boolean {
  if (!proof.verifySignature) {
    door.log.warn('an SMS post was taken without checking its signature');
    return true;
  }
  const signed = isProven(request, proof);
  if (!signed) door.log.warn('an SMS post was refused: its signature is missing or wrong');
  return signed;
}

function sendTwiml(response: Response, text: string): void {
  answerGateway(response, 200, toTwiml(text), 'text/xml');
}
