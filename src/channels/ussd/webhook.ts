// The USSD door: parse, verify, normalise, hand on, answer `CON` or `END`. A call has a person waiting at the screen and no
// fallback address, so our own fault is answered in words too; only a stranger or a malformed post gets a bare status.
// Next: fields.ts, reply.ts; sms/webhook.ts is the other door.

import type { Request, RequestHandler, Response } from 'express';
import type { Outgoing } from '../../conversation/ports.ts';
import { answerGateway, refuseFields } from '../answer-gateway.ts';
import { admitCaller } from '../caller.ts';
import type { Door } from '../door.ts';
import { describeFault } from '../fault.ts';
import { formOf } from '../form.ts';
import { maskPhone } from '../mask.ts';
import { toPlainText } from '../plain-text.ts';
import { checkSecretProof, isSecret, type SecretProof } from '../secret.ts';
import { readUssdFields, type UssdFields, ussdMessageId } from './fields.ts';
import { cutToScreen, type Fits, toUssdBody } from './reply.ts';

const SECRET_HEADER = 'x-gateway-secret';

export interface UssdScreen {
  readonly fits: Fits;
  /** Last screen for a phone that sends too much, or when its gateway brings too much. */
  readonly busyText: (phone: string) => string;
  /** Last screen when we fail: what to do without us. */
  readonly brokenText: (phone: string) => string;
}

/**
 * Answers `POST /ussd` and `POST /ussd/:secret`, after the form was read.
 *
 * Errors   a secret that could be guessed stops the start; see {@link checkSecretProof}.
 */
export function ussdWebhook(door: Door, proof: SecretProof, screen: UssdScreen): RequestHandler {
  checkSecretProof(proof, 'USSD');
  if (!proof.verifySecret) door.log.warn('THE USSD SECRET IS NOT CHECKED: anyone can speak as any worker. For development only.');

  return async (request, response) => {
    if (!isFromGateway(door, proof, request)) {
      answerGateway(response, 403, 'secret missing or wrong');
      return;
    }
    const read = readUssdFields(formOf(request));
    switch (read.kind) {
      case 'call-ended':
        answerGateway(response, 200, '');
        return;
      case 'refused':
        door.log.warn({ fields: read.fields }, 'a USSD post was refused: fields missing, sent twice or malformed');
        refuseFields(response, read.fields);
        return;
      case 'read':
        sendScreen(door, screen, response, await answer(door, screen, read.fields));
    }
  };
}

async function answer(door: Door, screen: UssdScreen, fields: UssdFields): Promise<Outgoing> {
  const caller = await admitCaller(door, 'ussd', fields.phoneNumber);
  if (caller.kind === 'not-a-number') return { text: '', ends: true };
  if (caller.kind !== 'admitted') return { text: screen.busyText(caller.from), ends: true };
  const id = ussdMessageId(fields);
  try {
    const text = toPlainText(fields.text);
    return await door.receive({ channel: 'ussd', from: caller.from, id, dial: fields.sessionId, text });
  } catch (error) {
    door.log.error({ from: maskPhone(caller.from), id, fault: describeFault(error) }, 'a USSD screen could not be answered');
    return { text: screen.brokenText(caller.from), ends: true };
  }
}

function isFromGateway(door: Door, proof: SecretProof, request: Request): boolean {
  if (!proof.verifySecret) {
    door.log.warn('a USSD post was taken without checking its secret');
    return true;
  }
  const inPath = request.params.secret;
  const known = isSecret([typeof inPath === 'string' ? inPath : undefined, request.get(SECRET_HEADER)], proof.secret);
  if (!known) door.log.warn('a USSD post was refused: its secret is missing or wrong');
  return known;
}

function sendScreen(door: Door, screen: UssdScreen, response: Response, outgoing: Outgoing): void {
  const text = cutToScreen(outgoing.text, screen.fits);
  if (text !== outgoing.text) {
    door.log.error({ length: outgoing.text.length, shown: text.length }, 'a screen was too long and was cut; the end of it was not shown');
  }
  answerGateway(response, 200, toUssdBody({ ...outgoing, text }));
}
