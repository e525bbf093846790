// The door for Kannel's smsbox: one post a text, and the reply is the body of the answer. Kannel brings a text again when it is
// answered 503, so that is what our own fault and a crowd are answered; silence is an empty body (`omit-empty`).
// Next: fields.ts, proof.ts; take-text.ts, which answers.

import bodyParser from 'body-parser';
import type { RequestHandler } from 'express';
import { alphabetOf } from '../../messages/gsm7.ts';
import { answerGateway, refuseFields } from '../answer-gateway.ts';
import type { Door } from '../door.ts';
import { toPlainText } from '../plain-text.ts';
import type { Room } from '../room.ts';
import { takeText } from '../take-text.ts';
import { readKannelPost } from './fields.ts';
import { checkKannelProof, isFromKannel, type KannelProof } from './proof.ts';

export const KANNEL_PATH = '/kannel';

/** Kannel's number for a text in UCS-2; it takes the header when `accept-x-kannel-headers` is set. */
const UCS_2 = '2';
const LARGEST_TEXT = '16kb';

/** Leaves the bytes of the text in `request.body`, or answers 413. */
export const readText = (): RequestHandler => bodyParser.raw({ type: () => true, limit: LARGEST_TEXT, inflate: false });

/**
 * Answers `POST /kannel?id=%I`, after the text was read.
 *
 * Errors   a secret that could be guessed stops the start; see {@link checkKannelProof}.
 */
export function kannelWebhook(door: Door, proof: KannelProof, room: Room): RequestHandler {
  checkKannelProof(proof);
  if (!proof.verifySecret) door.log.warn("KANNEL'S SECRET IS NOT CHECKED: anyone can speak as any worker. For development only.");

  return async (request, response) => {
    if (!isFromKannel(request, proof, door.log)) {
      answerGateway(response, 403, 'secret missing or wrong');
      return;
    }
    const body = Buffer.isBuffer(request.body) ? request.body : Buffer.alloc(0);
    const read = readKannelPost({ query: request.query, header: (name) => request.get(name), body });
    if (read.kind === 'refused') {
      door.log.warn({ fields: read.fields }, 'a post of Kannel was refused: fields missing, sent twice or malformed');
      refuseFields(response, read.fields);
      return;
    }
    if (read.kind === 'no-text') {
      door.log.info('Kannel brought data that is no text; it is not answered');
      answerGateway(response, 200, '');
      return;
    }
    const leave = room.enter();
    if (leave === undefined) {
      door.log.warn('more texts at once than are answered; Kannel is to bring this one again');
      answerGateway(response, 503, 'too many at once; bring it again');
      return;
    }
    const taken = await takeText(door, { ...read, gateway: 'kannel', id: `kannel:${read.id}` }).finally(leave);
    if (taken.kind === 'failed') {
      answerGateway(response, 503, 'not answered; bring it again');
      return;
    }
    const text = toPlainText(taken.text);
    if (alphabetOf(text) === 'ucs-2') response.set('x-kannel-coding', UCS_2);
    answerGateway(response, 200, text);
  };
}
