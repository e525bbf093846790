// What the SMS door hands on, and what it answers. Unhappy posts first.

import { describe, expect, test } from 'vitest';
import { openDoors, postForm, WORKER } from '../../support/channel-doors.ts';
import { EMPTY_REPLY, inboundSms, postSms, postSmsPairs, readTwiml, sign } from '../../support/channel-sms.ts';

describe('posts that are no text', () => {
  test.each(['MessageSid', 'From', 'Body'])('a repeated %s is refused by name, without its value', async (field) => {
    const doors = await openDoors();
    const answer = await postSmsPairs(doors.url, [...Object.entries(inboundSms()), [field, '+254700000777']]);
    expect(answer.status).toBe(400);
    expect(answer.body).toContain(field);
    expect(answer.body).not.toContain('777');
    expect(doors.logged.join('')).toContain(field);
    expect(doors.logged.join('')).not.toContain('777');
    expect(doors.heard).toEqual([]);
  });

  test('a repeated field that nobody reads keeps no text out', async () => {
    const doors = await openDoors();
    const answer = await postSmsPairs(doors.url, [...Object.entries(inboundSms()), ['Tag', 'a'], ['Tag', 'b']]);
    expect(answer.status).toBe(200);
    expect(doors.heard).toHaveLength(1);
  });

  test.each([
    ['no MessageSid', { From: WORKER, Body: '1' }],
    ['no From', { MessageSid: 'SM1', Body: '1' }],
    ['an empty MessageSid', { MessageSid: '', From: WORKER, Body: '1' }],
    ['a MessageSid with a line break', { MessageSid: 'SM1\nSM2', From: WORKER, Body: '1' }],
    ['a MessageSid of 1,000 characters', { MessageSid: 'S'.repeat(1000), From: WORKER, Body: '1' }],
    ['nothing at all', {}],
  ])('%s is refused', async (_name, form) => {
    const doors = await openDoors();
    expect((await postForm(`${doors.url}/sms`, form, { 'x-twilio-signature': sign(form) })).status).toBe(400);
    expect(doors.heard).toEqual([]);
  });

  test('a form of more than 16 kB is refused with 413', async () => {
    const doors = await openDoors();
    expect((await postSms(doors.url, { Body: 'x'.repeat(17_000) })).status).toBe(413);
    expect(doors.heard).toEqual([]);
  });

  test('a form of more than a thousand fields is refused with 413', async () => {
    const doors = await openDoors();
    const pairs = Array.from({ length: 1001 }, (_, index) => [`f${index}`, ''] as const);
    expect((await postForm(`${doors.url}/sms`, pairs)).status).toBe(413);
  });

  test.each([
    ['application/json', '{"Body":"1"}', 415],
    ['text/plain', 'Body=1', 415],
    ['multipart/form-data; boundary=x', '--x--', 415],
    ['application/x-www-form-urlencoded; charset=utf-16', 'Body=1', 415],
    ['application/x-www-form-urlencoded; charset=utf-8', '%', 403],
    ['application/x-www-form-urlencoded', '', 403],
  ])('content type %s with body %j gets %i', async (type, body, status) => {
    const doors = await openDoors();
    const response = await fetch(`${doors.url}/sms`, { method: 'POST', body, headers: { 'content-type': type, connection: 'close' } });
    expect(response.status).toBe(status);
    expect(doors.heard).toEqual([]);
  });

  test('a field named __proto__ is dropped by the reader of forms, so no signature over it holds', async () => {
    const doors = await openDoors();
    const form = Object.fromEntries([...Object.entries(inboundSms()), ['__proto__', 'polluted']]);
    const answer = await postForm(`${doors.url}/sms`, form, { 'x-twilio-signature': sign(form) });
    expect(answer.status).toBe(403);
    expect(doors.heard).toEqual([]);
  });

  test.each(['constructor', 'toString', 'hasOwnProperty', '__proto__[Body]', 'Body[0]', 'Body[]', 'Body.x'])(
    'a field named %s is one more field that nobody reads',
    async (name) => {
      const doors = await openDoors();
      expect((await postSms(doors.url, { [name]: 'x' })).status).toBe(200);
      expect(doors.heard[0]?.text).toBe('1');
    },
  );
});

describe('the text as it is handed on', () => {
  test('carries channel, number and the id of the message', async () => {
    const doors = await openDoors();
    await postSms(doors.url, { MessageSid: 'SMabc', Body: ' T36.8 R44 ' });
    expect(doors.heard).toEqual([{ channel: 'sms', from: WORKER, id: 'sms:SMabc', text: ' T36.8 R44 ' }]);
  });

  test.each([
    ['empty', '', ''],
    ['emoji', '👶🏾 36.8 👩‍⚕️', '👶🏾 36.8 👩‍⚕️'],
    ['right-to-left', 'درجة \u200f36.8', 'درجة \u200f36.8'],
    ['Amharic', 'ሙቀት 36.8', 'ሙቀት 36.8'],
    ['the word __proto__', '__proto__', '__proto__'],
    ['NUL', '36\u0000.8', '36.8'],
    ['escape and bell', '\u001b[31m36.8\u0007', '[31m36.8'],
    ['tab and newline', 'T\t36.8\nR 44', 'T\t36.8\nR 44'],
    ['line breaks of other machines', '36\r8\r\n1', '36\n8\n1'],
    ['letters in pieces', 'e\u0301tat', 'état'],
    ['10,000 characters', '7'.repeat(10_000), '7'.repeat(10_000)],
    ['1,600 characters of a script of three bytes', 'ሙ'.repeat(1600), 'ሙ'.repeat(1600)],
  ])('%s', async (_name, body, text) => {
    const doors = await openDoors();
    expect((await postSms(doors.url, { Body: body })).status).toBe(200);
    expect(doors.heard.map((incoming) => incoming.text)).toEqual([text]);
  });

  test('a post without Body is an empty text', async () => {
    const doors = await openDoors();
    const { Body: _left, ...form } = inboundSms();
    expect((await postForm(`${doors.url}/sms`, form, { 'x-twilio-signature': sign(form) })).status).toBe(200);
    expect(doors.heard[0]?.text).toBe('');
  });

  test('a text in ISO-8859-1 is read as such', async () => {
    const doors = await openDoors({ sms: { verifySignature: false } });
    const body = 'MessageSid=SM1&From=%2B254700000321&Body=%E9tat';
    const headers = { 'content-type': 'application/x-www-form-urlencoded; charset=iso-8859-1', connection: 'close' };
    expect((await fetch(`${doors.url}/sms`, { method: 'POST', body, headers })).status).toBe(200);
    expect(doors.heard[0]?.text).toBe('état');
  });

  test.each(['21222', 'PIPIT', '', '+', '+999999999999', '0700000321', 'whatsapp:+254700000321'])(
    'from "%s" nothing is handed on, and the number is not logged',
    async (from) => {
      const doors = await openDoors();
      const answer = await postSms(doors.url, { From: from });
      expect(answer.status).toBe(from === '' ? 400 : 200);
      if (from !== '') expect(answer.body).toBe(EMPTY_REPLY);
      expect(doors.heard).toEqual([]);
      if (from.length > 3) expect(doors.logged.join('')).not.toContain(from);
    },
  );
});

describe('carrier keywords', () => {
  test.each([
    'STOP',
    'stop',
    ' Stop ',
    'STOPALL',
    'UNSUBSCRIBE',
    'CANCEL',
    'END',
    'QUIT',
    'REVOKE',
    'OPTOUT',
    'START',
    'YES',
    'UNSTOP',
    'HELP',
    'INFO',
  ])('"%s" is left to the carrier', async (body) => {
    const doors = await openDoors();
    const answer = await postSms(doors.url, { Body: body });
    expect(answer).toMatchObject({ status: 200, body: EMPTY_REPLY });
    expect(doors.heard).toEqual([]);
  });

  test('a text that the gateway took for an opt-out, in whatever words, is left to it', async () => {
    const doors = await openDoors();
    expect((await postSms(doors.url, { Body: 'ARRET', OptOutType: 'STOP' })).body).toBe(EMPTY_REPLY);
    expect(doors.heard).toEqual([]);
    expect(doors.logged.join('')).toContain('"keyword":"opt-out"');
  });

  test.each(['stop the bleeding', 'END 1', '?', 'N0'])('"%s" is no keyword', async (body) => {
    const doors = await openDoors();
    await postSms(doors.url, { Body: body });
    expect(doors.heard).toHaveLength(1);
  });
});

describe('the answer', () => {
  test('is one message in TwiML', async () => {
    const doors = await openDoors({ reply: () => ({ text: 'Temp <35.5 & "cold": warm \'skin to skin\' 👶', ends: false }) });
    const answer = await postSms(doors.url);
    expect(answer.headers['content-type']).toBe('text/xml; charset=utf-8');
    expect(readTwiml(answer.body)).toBe('Temp <35.5 & "cold": warm \'skin to skin\' 👶');
  });

  test('is empty when there is nothing to say', async () => {
    const doors = await openDoors({ reply: () => ({ text: '', ends: true }) });
    expect((await postSms(doors.url)).body).toBe(EMPTY_REPLY);
  });

  test('is 500 when we fail, so that the gateway asks its fallback; neither words nor number are logged', async () => {
    const doors = await openDoors({
      reply: (incoming) => {
        throw Object.assign(new Error(`row (${incoming.from}, ${incoming.text}) refused`), { code: '23505' });
      },
    });
    const answer = await postSms(doors.url, { MessageSid: 'SMx', Body: 'her baby is cold' });
    expect(answer.status).toBe(500);
    const log = doors.logged.join('');
    expect(log).toContain('"code":"23505"');
    expect(log).toContain('"id":"sms:SMx"');
    expect(log).toContain('"from":"…321"');
    expect(log + answer.body).not.toMatch(/cold|254700000321/);
  });

  test('is silence over the rate limit, never 429', async () => {
    const asked: string[] = [];
    const doors = await openDoors({ isOverLimit: async (phone) => asked.push(phone) > 1 });
    expect(readTwiml((await postSms(doors.url)).body)).toBe('Heard.');
    expect(await postSms(doors.url)).toMatchObject({ status: 200, body: EMPTY_REPLY });
    expect(asked).toEqual([WORKER, WORKER]);
    expect(doors.heard).toHaveLength(1);
  });

  test('goes to the fallback when the gateway brings too much, and counts only what phones may send', async () => {
    const asked: string[] = [];
    const doors = await openDoors({
      isOverLimit: async () => asked.push('phone') > 1,
      isGatewayOverLimit: async (gateway) => asked.push(gateway) > 0,
    });
    expect((await postSms(doors.url)).status).toBe(500);
    expect(await postSms(doors.url)).toMatchObject({ status: 200, body: EMPTY_REPLY });
    expect(asked).toEqual(['phone', 'sms', 'phone']);
    expect(doors.heard).toEqual([]);
  });

  test('is given when the rate limit cannot be asked', async () => {
    const doors = await openDoors({ isOverLimit: () => Promise.reject(new Error('no connection')) });
    expect(readTwiml((await postSms(doors.url)).body)).toBe('Heard.');
  });
});
