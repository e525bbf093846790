// Texts out, against a small gateway of the test's own on this machine.

import { createServer, type IncomingMessage, type RequestListener } from 'node:http';
import type { AddressInfo } from 'node:net';
import { expect, onTestFinished, test, vi } from 'vitest';
import { type TwilioCompatibleGateway, twilioCompatibleSender } from '../../../src/channels/sms/send.ts';
import { terminalSender } from '../../../src/channels/sms/terminal.ts';

const TEXT = { key: 'alert-1', to: '+254700000321', text: 'Baby K7: cold, 34.9 & "not feeding" 👶' };

async function openGateway(answer: RequestListener): Promise<string> {
  const server = createServer(answer);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(
    () =>
      new Promise<void>((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  );
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
}

function account(baseUrl: string): TwilioCompatibleGateway {
  return { baseUrl, accountSid: 'ACinvented', authToken: 'secret', from: '+254700000999', timeoutMilliseconds: 30_000 };
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  let body = '';
  for await (const piece of request.setEncoding('utf8')) body += piece;
  return body;
}

// Source: Twilio documentation, Messages resource: path, basic authentication, form fields.
test('a text is posted as a form, with basic authentication, to the account', async () => {
  const posts: unknown[] = [];
  const baseUrl = await openGateway(async (request, response) => {
    const fields = Object.fromEntries(new URLSearchParams(await bodyOf(request)));
    posts.push({ method: request.method, url: request.url, authorization: request.headers.authorization, fields });
    response.writeHead(201, { 'content-type': 'application/json' }).end('{"sid":"SM42","status":"queued"}');
  });
  const send = twilioCompatibleSender({
    ...account(`${baseUrl}/`),
    statusCallback: (key) => `https://pipit.example.org/sms/status?text=${key.length}`,
  });
  expect(await send(TEXT)).toEqual({ kind: 'sent', gatewayId: 'SM42' });
  expect(posts).toEqual([
    {
      method: 'POST',
      url: '/2010-04-01/Accounts/ACinvented/Messages.json',
      authorization: `Basic ${btoa('ACinvented:secret')}`,
      fields: {
        To: TEXT.to,
        From: '+254700000999',
        Body: TEXT.text,
        StatusCallback: `https://pipit.example.org/sms/status?text=${TEXT.key.length}`,
      },
    },
  ]);
});

test.each([
  [201, '{"sid":"SM42"}', { kind: 'sent', gatewayId: 'SM42' }],
  [400, '{"code":21211,"message":"+254700000321 is not valid","status":400}', { kind: 'failed', reason: 'http 400, gateway code 21211' }],
  [400, '{"code":21610,"message":"unsubscribed recipient"}', { kind: 'failed', reason: 'http 400, gateway code 21610' }],
  [401, '', { kind: 'failed', reason: 'http 401' }],
  [429, '{"code":20429}', { kind: 'failed', reason: 'http 429, gateway code 20429' }],
  [404, '<html>+254700000321</html>', { kind: 'failed', reason: 'http 404' }],
  [500, '{"code":20500}', { kind: 'unknown' }],
  [503, '', { kind: 'unknown' }],
  [200, '<html>sign in to the network</html>', { kind: 'unknown' }],
  [201, '{"sid":""}', { kind: 'unknown' }],
])('%i with %s', async (status, body, sent) => {
  const baseUrl = await openGateway((_request, response) => response.writeHead(status).end(body));
  expect(await twilioCompatibleSender(account(baseUrl))(TEXT)).toEqual(sent);
});

test('a redirect is a refusal: neither text nor credentials follow it', async () => {
  const asked: (string | undefined)[] = [];
  const baseUrl = await openGateway((request, response) => {
    asked.push(request.url);
    response.writeHead(307, { location: '/elsewhere' }).end();
  });
  expect(await twilioCompatibleSender(account(baseUrl))(TEXT)).toEqual({ kind: 'failed', reason: 'http 307' });
  expect(asked).toHaveLength(1);
});

test('a connection closed without an answer leaves it unknown', async () => {
  const baseUrl = await openGateway((request) => request.socket.destroy());
  expect(await twilioCompatibleSender(account(baseUrl))(TEXT)).toEqual({ kind: 'unknown' });
});

test('a connection closed in the middle of a good answer leaves it unknown', async () => {
  const baseUrl = await openGateway((request, response) => {
    response.writeHead(201, { 'content-length': '100' });
    response.write('{"sid":', () => request.socket.destroy());
  });
  expect(await twilioCompatibleSender(account(baseUrl))(TEXT)).toEqual({ kind: 'unknown' });
});

test('a refused connection is a failure: nothing left this machine', async () => {
  // Port 2 is reserved for the administrator and used by nobody.
  expect(await twilioCompatibleSender(account('http://127.0.0.1:2'))(TEXT)).toEqual({ kind: 'failed', reason: 'gateway not reached' });
});

test('a name that is not found is a failure', async () => {
  // RFC 6761: names under .invalid never resolve.
  expect(await twilioCompatibleSender(account('http://gateway.invalid'))(TEXT)).toEqual({ kind: 'failed', reason: 'gateway not reached' });
});

const fault = (code: string, more: object = {}) => Object.assign(new Error(code), { code, ...more });
const refusedCall = fault('ECONNREFUSED', { syscall: 'connect' });

test.each([
  ['a timeout', new DOMException('timed out', 'TimeoutError'), 'unknown'],
  ['a reset while reading', fault('ECONNRESET', { syscall: 'read' }), 'unknown'],
  ['a reset without a call', fault('ECONNRESET'), 'unknown'],
  ['silence after connecting', fault('UND_ERR_HEADERS_TIMEOUT'), 'unknown'],
  ['something thrown that is no error', 'gone', 'unknown'],
  ['one address refused and one lost', new AggregateError([refusedCall, fault('ECONNRESET', { syscall: 'read' })]), 'unknown'],
  ['no reason at all', new AggregateError([]), 'unknown'],
  ['every address refused', new AggregateError([refusedCall, fault('ENETUNREACH', { syscall: 'connect' })]), 'failed'],
  ['a connection that never stood', fault('UND_ERR_CONNECT_TIMEOUT'), 'failed'],
  ['a certificate for another name', fault('ERR_TLS_CERT_ALTNAME_INVALID'), 'failed'],
  ['an old certificate', fault('CERT_HAS_EXPIRED'), 'failed'],
  ['a certificate nobody vouches for', fault('UNABLE_TO_VERIFY_LEAF_SIGNATURE'), 'failed'],
])('%s is %s', async (_name, cause, kind) => {
  const lost = () => Promise.reject(new TypeError('fetch failed', { cause }));
  expect((await twilioCompatibleSender({ ...account('http://127.0.0.1:1'), fetch: lost })(TEXT)).kind).toBe(kind);
});

test('the configured timeout ends the wait, and leaves it unknown', async () => {
  const baseUrl = await openGateway(() => {});
  const timeout = vi.spyOn(AbortSignal, 'timeout').mockReturnValue(AbortSignal.abort(new DOMException('timed out', 'TimeoutError')));
  onTestFinished(() => timeout.mockRestore());
  expect(await twilioCompatibleSender({ ...account(baseUrl), timeoutMilliseconds: 8000 })(TEXT)).toEqual({ kind: 'unknown' });
  expect(timeout).toHaveBeenCalledExactlyOnceWith(8000);
});

test('an address that is no URL stops the start', () => {
  expect(() => twilioCompatibleSender(account('api.example.org'))).toThrow('Write scheme and host');
});

test('the terminal shows the text as the phone would', async () => {
  const lines: string[] = [];
  expect(await terminalSender((line) => lines.push(line))(TEXT)).toEqual({ kind: 'sent', gatewayId: 'terminal:alert-1' });
  expect(lines.join('')).toBe(`SMS > ${TEXT.to}\n${TEXT.text}\n`);
});
