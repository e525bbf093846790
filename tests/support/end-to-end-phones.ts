// Phones as a gateway presents them to a running server: texts signed as the gateway signs them, calls with the secret.
// Beside them, what a worker does in an examination. Next: end-to-end-register.ts, where it must end up.

import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { type Answer, postForm, SECRET } from './channel-doors.ts';
import { postSms, readTwiml } from './channel-sms.ts';

export interface Text {
  readonly sid: string;
  readonly from: string;
  readonly body: string;
}

export const textOf = (from: string, body: string): Text => ({ sid: `SM${randomUUID().replaceAll('-', '')}`, from, body });

/** One delivery by the gateway; the same text again is a redelivery. */
export function deliver(url: string, { sid, from, body }: Text): Promise<Answer> {
  return postSms(url, { MessageSid: sid, From: from, Body: body });
}

/** What a phone does that texts: the reply to each text. */
export type Send = (body: string) => Promise<string>;

export function phoneThatTexts(url: () => string, from: string): Send {
  return async (body) => {
    const answer = await deliver(url(), textOf(from, body));
    expect(answer.status, answer.body).toBe(200);
    return readTwiml(answer.body) ?? '';
  };
}

export interface Call {
  /** The screen that the phone shows; of the dial itself when nothing is keyed. */
  key(text?: string): Promise<{ readonly screen: string; readonly goesOn: boolean }>;
}

/** A USSD call: each post carries all that was keyed since the dial. */
export function dial(url: () => string, from: string, secret = SECRET): Call {
  const sessionId = `ATUid_${randomUUID()}`;
  let keyed = '';
  return {
    async key(text) {
      if (text !== undefined) keyed = keyed === '' ? text : `${keyed}*${text}`;
      const answer = await postForm(`${url()}/ussd/${secret}`, {
        sessionId,
        phoneNumber: from,
        serviceCode: '*384#',
        networkCode: '63902',
        text: keyed,
      });
      expect(answer.status, answer.body).toBe(200);
      const [, verb, screen = ''] = /^(CON|END) ([\s\S]*)$/.exec(answer.body) ?? [];
      expect(verb, answer.body).toBeDefined();
      return { screen, goesOn: verb === 'CON' };
    },
  };
}

/** The baby of these tests, born when she is examined at any hour of the day. */
export const WHO = '1 5h 39 3100';
/** The line of a result: the baby's code, and which baby. */
export const RESULT = /(?:^|\s)[2-9][A-Z]{2} (?:girl|boy|baby)\b/;
const mostQuestions = 30;

/** Answers "none of these" until the result comes; the result. */
export async function answerNoneUntilResult(send: Send): Promise<string> {
  for (let asked = 0; asked < mostQuestions; asked += 1) {
    const reply = await send('0');
    if (RESULT.test(reply)) return reply;
  }
  throw new Error(`No result came within ${mostQuestions} answers.`);
}

/** A whole examination in which nothing is found; the result. */
export async function examineWellBaby(send: Send): Promise<string> {
  await beginVitals(send);
  await send('36.8 44 132');
  return answerNoneUntilResult(send);
}

/** From the first word to the question for temperature and counts. */
export async function beginVitals(send: Send): Promise<void> {
  await send('BABY');
  await send(WHO);
  for (const none of ['0', '0', '0']) await send(none);
}
