// What the USSD door hands on, and what it answers. Unhappy posts first.

import { describe, expect, test } from 'vitest';
import { checkSecretProof } from '../../../src/channels/secret.ts';
import { type Answer, openDoors, postForm, SECRET, WORKER } from '../../support/channel-doors.ts';

function keyed(fields: Readonly<Record<string, string>> = {}): Record<string, string> {
  return { sessionId: 'call-1', phoneNumber: WORKER, serviceCode: '*100#', networkCode: 'invented', text: '', ...fields };
}

const post = (doorsUrl: string, fields: Readonly<Record<string, string>> = {}): Promise<Answer> =>
  postForm(`${doorsUrl}/ussd/${SECRET}`, keyed(fields));

describe('the secret', () => {
  test.each([
    ['in the path', `/ussd/${SECRET}`, {}, 200],
    ['in the header', '/ussd', { 'x-gateway-secret': SECRET }, 200],
    ['missing', '/ussd', {}, 403],
    ['empty', '/ussd', { 'x-gateway-secret': '' }, 403],
    ['wrong in the path', '/ussd/guess', {}, 403],
    ['wrong in the header', '/ussd', { 'x-gateway-secret': 'guess' }, 403],
    ['a beginning of it', `/ussd/${SECRET.slice(0, -1)}`, {}, 403],
    ['one character too long', `/ussd/${SECRET}x`, {}, 403],
    ['broken percent escape', '/ussd/%E0%A4%A', {}, 400],
  ])('%s', async (_name, path, headers, status) => {
    const doors = await openDoors();
    expect((await postForm(doors.url + path, keyed(), headers)).status).toBe(status);
    expect(doors.heard).toHaveLength(status === 200 ? 1 : 0);
    expect(doors.logged.join('')).not.toContain(SECRET);
  });

  test('not checked is said at the start and at every screen', async () => {
    const open = { verifySecret: false, fits: () => true, busyText: () => '', brokenText: () => '' } as const;
    const doors = await openDoors({ ussd: open });
    expect(doors.logged.join('')).toContain('THE USSD SECRET IS NOT CHECKED');
    expect((await postForm(`${doors.url}/ussd`, keyed())).status).toBe(200);
    expect(doors.logged.join('')).toContain('without checking its secret');
  });

  test.each(['', 'short', '123456789012345'])('"%s" could be guessed and stops the start', (secret) => {
    expect(() => checkSecretProof({ verifySecret: true, secret }, 'USSD')).toThrow('openssl rand');
  });
});

describe('posts that are no screen', () => {
  test.each(['sessionId', 'phoneNumber', 'text'])('a repeated %s is refused', async (field) => {
    const doors = await openDoors();
    const answer = await postForm(`${doors.url}/ussd/${SECRET}`, [...Object.entries(keyed()), [field, '777']]);
    expect(answer.status).toBe(400);
    expect(answer.body).toContain(field);
    expect(doors.heard).toEqual([]);
  });

  test.each([
    ['no sessionId', { phoneNumber: WORKER, text: '' }],
    ['no phoneNumber', { sessionId: 's', text: '' }],
    ['nothing at all', {}],
  ])('%s is refused', async (_name, form) => {
    const doors = await openDoors();
    expect((await postForm(`${doors.url}/ussd/${SECRET}`, form as Record<string, string>)).status).toBe(400);
  });

  test('JSON is refused with 415', async () => {
    const doors = await openDoors();
    const headers = { 'content-type': 'application/json', connection: 'close' };
    expect((await fetch(`${doors.url}/ussd/${SECRET}`, { method: 'POST', body: '{}', headers })).status).toBe(415);
  });

  test('a form of more than 16 kB is refused with 413', async () => {
    const doors = await openDoors();
    expect((await post(doors.url, { text: '1'.repeat(17_000) })).status).toBe(413);
  });

  test('the end of a call is taken note of and not handed on', async () => {
    const doors = await openDoors();
    const answer = await post(doors.url, {
      status: 'Success',
      durationInMillis: '41000',
      hopsCount: '3',
      cost: 'KES 1',
      input: '1*2',
      lastAppResponse: 'END',
      errorMessage: '',
    });
    expect(answer).toMatchObject({ status: 200, body: '' });
    expect(doors.heard).toEqual([]);
  });

  test('something that is no phone number gets an empty last screen', async () => {
    const doors = await openDoors();
    expect(await post(doors.url, { phoneNumber: 'anonymous' })).toMatchObject({ status: 200, body: 'END ' });
    expect(doors.heard).toEqual([]);
  });
});

describe('what was keyed, as it is handed on', () => {
  test('carries channel, number, call and an id of its own', async () => {
    const doors = await openDoors();
    await post(doors.url, { text: '1*36*8' });
    expect(doors.heard).toEqual([
      // The first 16 digits of: printf '1*36*8' | sha256sum
      { channel: 'ussd', from: WORKER, id: 'ussd:call-1:96c6fb432d80e538', dial: 'call-1', text: '1*36*8' },
    ]);
  });

  test.each([
    ['the dial', '', ''],
    ['a number with a star for its point', '36*8', '36*8'],
    ['an empty answer', '1*', '1*'],
    ['stars only', '***', '***'],
    ['emoji', '1*👶🏾', '1*👶🏾'],
    ['right-to-left', '1*٣٦', '1*٣٦'],
    ['the word __proto__', '__proto__', '__proto__'],
    ['NUL', '1*3\u00006', '1*36'],
    ['10,000 characters', '1*'.repeat(5000), '1*'.repeat(5000)],
  ])('%s', async (_name, text, heard) => {
    const doors = await openDoors();
    expect((await post(doors.url, { text })).status).toBe(200);
    expect(doors.heard.map((incoming) => incoming.text)).toEqual([heard]);
  });

  test('a post without text is the dial', async () => {
    const doors = await openDoors();
    const { text: _left, ...form } = keyed();
    await postForm(`${doors.url}/ussd/${SECRET}`, form);
    expect(doors.heard[0]?.text).toBe('');
  });

  test('the same keys in the same call are the same message; other keys or another call are another', async () => {
    const doors = await openDoors();
    await post(doors.url, { text: '1*2' });
    await post(doors.url, { text: '1*2' });
    await post(doors.url, { text: '1*2*' });
    await post(doors.url, { text: '1*2', sessionId: 'call-2' });
    const [first, again, more, other] = doors.heard.map((incoming) => incoming.id);
    expect(again).toBe(first);
    expect(new Set([first, more, other]).size).toBe(3);
  });

  test('carrier keywords are keys like others', async () => {
    const doors = await openDoors();
    await post(doors.url, { text: 'STOP' });
    expect(doors.heard[0]?.text).toBe('STOP');
  });
});

describe('the answer', () => {
  test.each([
    ['goes on', { text: 'Sex?\n1 Girl\n2 Boy', ends: false }, 'CON Sex?\n1 Girl\n2 Boy'],
    ['ends', { text: 'Refer now.', ends: true }, 'END Refer now.'],
    ['has nothing to show', { text: '', ends: false }, 'END '],
    ['is not taken for markup', { text: 'T <35.5 & "cold"', ends: true }, 'END T <35.5 & "cold"'],
    ['holds no control characters', { text: 'a\u0000\u001bb', ends: false }, 'CON ab'],
  ])('%s', async (_name, outgoing, body) => {
    const doors = await openDoors({ reply: () => outgoing });
    const answer = await post(doors.url);
    expect(answer).toMatchObject({ status: 200, body });
    expect(answer.headers['content-type']).toBe('text/plain; charset=utf-8');
  });

  test('longer than the screen is cut there, and that is an error in the log', async () => {
    const doors = await openDoors({ reply: () => ({ text: 'x'.repeat(161), ends: false }) });
    expect((await post(doors.url)).body).toBe(`CON ${'x'.repeat(160)}`);
    expect(doors.logged.filter((line) => JSON.parse(line).level === 50)).toHaveLength(1);
  });

  test('of exactly a screen is whole, and nothing is logged', async () => {
    const doors = await openDoors({ reply: () => ({ text: 'x'.repeat(160), ends: false }) });
    expect((await post(doors.url)).body).toBe(`CON ${'x'.repeat(160)}`);
    expect(doors.logged).toEqual([]);
  });

  test('is the injected words when we fail; neither keys nor number are logged', async () => {
    const doors = await openDoors({
      reply: (incoming) => {
        throw new Error(`${incoming.from} ${incoming.text}`);
      },
    });
    expect(await post(doors.url, { text: '1*3219' })).toMatchObject({ status: 200, body: 'END broken' });
    expect(doors.logged.join('')).toContain('…321');
    expect(doors.logged.join('')).not.toMatch(/1\*3219|254700000321/);
  });

  test.each([
    ['of the phone', { isOverLimit: async () => true }],
    ['of the gateway', { isGatewayOverLimit: async (gateway: string) => gateway === 'ussd' }],
  ])('is the injected words over the rate limit %s, never 429', async (_whose, limits) => {
    const doors = await openDoors(limits);
    expect(await post(doors.url)).toMatchObject({ status: 200, body: 'END busy' });
    expect(doors.heard).toEqual([]);
  });
});
