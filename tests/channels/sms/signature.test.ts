// Who is let in by the SMS door.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkSmsProof, isSigned } from '../../../src/channels/sms/signature.ts';
import { openDoors, PUBLIC_URL, postForm } from '../../support/channel-doors.ts';
import { inboundSms, postSms, sign } from '../../support/channel-sms.ts';

// Source: Twilio documentation, Validating requests, worked example.
describe('the published worked example', () => {
  const proof = { authToken: '12345', publicUrl: 'https://mycompany.com' };
  const target = '/myapp.php?foo=1&bar=2';
  const signature = '0/KCTR6DLpKmkAf8muzZqo1nDgQ=';
  const form = { CallSid: 'CA1234567890ABCDE', Caller: '+12349013030', Digits: '1234', From: '+12349013030', To: '+18005551212' };

  test.each([
    ['as printed', form, signature],
    ['with another caller', { ...form, Caller: '+14158675309', From: '+14158675309' }, 'RSOYDt4T1cUTdK1PDd93/VVr8B8='],
    ['with a repeated field', { Sid: 'CA123', SidAccount: 'AC123', Digits: ['5678', '1234', '1234'] }, 'IK+Dwps556ElfBT0I3Rgjkr1wJU='],
  ])('is accepted %s', (_name, signed, its) => {
    expect(isSigned({ signature: its, target, form: signed }, proof)).toBe(true);
  });

  test.each([
    ['another token', { proof: { ...proof, authToken: '12346' } }],
    ['another host', { proof: { ...proof, publicUrl: 'https://mycompany.org' } }],
    ['another scheme', { proof: { ...proof, publicUrl: 'http://mycompany.com' } }],
    ['another query', { target: '/myapp.php?foo=1&bar=3' }],
    ['one digit changed', { form: { ...form, Digits: '1235' } }],
    ['one field more', { form: { ...form, Extra: '' } }],
    ['one letter of the signature changed', { signature: '0/KCTR6DLpKmkAf8muzZqo1nDgq=' }],
    ['a signature of other length', { signature: '0/KCTR6DLpKmkAf8muzZqo1nDg' }],
    ['no signature', { signature: undefined }],
    ['an empty signature', { signature: '' }],
  ])('is refused with %s', (_name, changed) => {
    const post = { proof, target, form, signature, ...changed };
    expect(isSigned(post, post.proof)).toBe(false);
  });
});

// Source: Twilio documentation, Validating requests: the standard port may or may not be part of what was signed.
describe('the port of the public URL', () => {
  const form = inboundSms();
  test.each([
    ['https://pipit.example.org', 'https://pipit.example.org/sms', true],
    ['https://pipit.example.org', 'https://pipit.example.org:443/sms', true],
    ['https://pipit.example.org:443', 'https://pipit.example.org/sms', true],
    ['http://pipit.example.org', 'http://pipit.example.org:80/sms', true],
    ['https://pipit.example.org:8443', 'https://pipit.example.org:8443/sms', true],
    ['https://pipit.example.org/', 'https://pipit.example.org/sms', true],
    ['https://pipit.example.org/pipit/', 'https://pipit.example.org/pipit/sms', true],
    ['https://pipit.example.org', 'https://pipit.example.org:8443/sms', false],
    ['https://pipit.example.org', 'https://pipit.example.org:80/sms', false],
  ])('configured %s and signed %s: %s', (publicUrl, signedUrl, accepted) => {
    const proof = { authToken: '12345', publicUrl };
    expect(isSigned({ signature: sign(form, signedUrl), target: '/sms', form }, proof)).toBe(accepted);
  });
});

describe('the door', () => {
  test('opens for a signed text', async () => {
    const doors = await openDoors();
    expect((await postSms(doors.url)).status).toBe(200);
    expect(doors.heard).toHaveLength(1);
  });

  test('opens for whatever the gateway signs: 200 made-up texts', async () => {
    const doors = await openDoors();
    const fieldName = fc.stringMatching(/^[A-Za-z][A-Za-z0-9_.[\]-]{0,20}$/);
    // Any code points, control characters too; half of a surrogate pair cannot be written in a form at all.
    const words = fc.oneof(fc.string({ unit: 'binary', maxLength: 120 }), fc.string({ unit: 'grapheme', maxLength: 120 }));
    const unread = fc.dictionary(fieldName, words, { maxKeys: 4 });
    await fc.assert(
      fc.asyncProperty(words, unread, async (body, extra) => {
        const answer = await postSms(doors.url, { ...extra, Body: `> ${body}`, OptOutType: '' });
        expect(answer.status).toBe(200);
      }),
      { numRuns: 200 },
    );
    expect(doors.heard).toHaveLength(200);
  });

  test('takes the query into what was signed', async () => {
    const doors = await openDoors();
    const form = inboundSms();
    const signed = { 'x-twilio-signature': sign(form, `${PUBLIC_URL}/sms?line=2`) };
    expect((await postForm(`${doors.url}/sms?line=2`, form, signed)).status).toBe(200);
    expect((await postForm(`${doors.url}/sms?line=3`, form, signed)).status).toBe(403);
  });

  test('does not mind the Host header of a proxy', async () => {
    const doors = await openDoors();
    const headers = { 'x-twilio-signature': sign(inboundSms()), host: 'inside.example.org:8080', 'x-forwarded-proto': 'http' };
    expect((await postForm(`${doors.url}/sms`, inboundSms(), headers)).status).toBe(200);
  });

  test.each([
    ['no signature', {}, {}],
    ['a signature of another account', { 'x-twilio-signature': sign(inboundSms(), `${PUBLIC_URL}/sms`, 'another token') }, {}],
    ['a body changed after signing', { 'x-twilio-signature': sign(inboundSms()) }, { Body: '2' }],
    ['a sender changed after signing', { 'x-twilio-signature': sign(inboundSms()) }, { From: '+254700000322' }],
    ['a field added after signing', { 'x-twilio-signature': sign(inboundSms()) }, { Added: 'x' }],
    [
      'a forged Host header',
      { 'x-twilio-signature': sign(inboundSms(), 'https://elsewhere.example.org/sms'), host: 'elsewhere.example.org' },
      {},
    ],
    [
      'a forged forwarded host',
      {
        'x-twilio-signature': sign(inboundSms(), 'https://elsewhere.example.org/sms'),
        'x-forwarded-host': 'elsewhere.example.org',
        'x-forwarded-proto': 'https',
      },
      {},
    ],
  ])('stays shut with %s', async (_name, headers, changed) => {
    const doors = await openDoors();
    const answer = await postForm(`${doors.url}/sms`, inboundSms(changed), headers);
    expect(answer.status).toBe(403);
    expect(doors.heard).toEqual([]);
    expect(doors.logged.join('')).toContain('signature is missing or wrong');
    expect(doors.logged.join('')).not.toContain('254700000');
  });

  test('an absolute request target does not choose the host that is checked', () => {
    const form = inboundSms();
    const proof = { authToken: '12345', publicUrl: 'https://pipit.example.org:8443' };
    const target = 'http://elsewhere.example.org/sms';
    expect(isSigned({ signature: sign(form, target), target, form }, proof)).toBe(false);
  });
});

describe('without checking', () => {
  test('is said at the start and at every text', async () => {
    const doors = await openDoors({ sms: { verifySignature: false } });
    const warnings = () => doors.logged.filter((line) => JSON.parse(line).level === 40);
    expect(warnings()).toHaveLength(1);
    expect(warnings()[0]).toContain('SMS SIGNATURES ARE NOT CHECKED');
    expect((await postForm(`${doors.url}/sms`, inboundSms())).status).toBe(200);
    expect(warnings()).toHaveLength(2);
    expect(warnings()[1]).toContain('without checking its signature');
  });
});

describe('settings that would let anybody in', () => {
  test.each([
    ['an empty token', { authToken: ' ', publicUrl: PUBLIC_URL }, 'Set the token'],
    ['a public URL without scheme', { authToken: 't', publicUrl: 'pipit.example.org' }, 'Write scheme and host'],
    ['a public URL of another kind', { authToken: 't', publicUrl: 'ftp://pipit.example.org' }, 'Write scheme and host'],
    ['a public URL with a query', { authToken: 't', publicUrl: `${PUBLIC_URL}?x=1` }, 'Write scheme and host'],
  ])('stop the start: %s', (_name, settings, remedy) => {
    expect(() => checkSmsProof({ verifySignature: true, ...settings })).toThrow(remedy);
  });
});
