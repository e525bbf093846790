// The doors for gateways, over HTTP as bytes: forms with fields sent twice, nested, misspelt or huge, headers with line breaks, paths
// that are no UTF-8, secrets nearly right. Nobody gets in without a proof, nothing is answered 5xx, nothing that was sent becomes
// a header, and a reply is always one well-formed message. Accepted: the message reached the conversation, or the report the register.

import { parse } from 'node:querystring';
import { getExpectedTwilioSignature } from 'twilio/lib/webhooks/webhooks.js';
import { listen } from '../../../src/channels/listen.ts';
import { buildServer } from '../../../src/channels/server.ts';
import { fitsScreen } from '../../../src/messages/screens.ts';
import type { Chance } from '../../simulation/chance.ts';
import { messages } from '../good-messages.ts';
import { mutate } from '../mutate.ts';
import { noise, oddity, prototypeNames } from '../noise.ts';
import { type Ends, type RawAnswer, rawClient } from '../raw-http.ts';
import { type Input, type Outcome, type Target, type Timed, usualLimitMilliseconds } from '../target.ts';

const publicUrl = 'https://pipit.example.org';
const authToken = 'an-invented-token';
const secret = 'an-invented-secret-of-the-gateway';
const worker = '+254700000321';
const screen = { gsm7: 182, ucs2: 70 };

let reached = 0;
/** Faults of our own that were logged. A screen that was cut is none here, where the conversation says whatever it hears. */
let failures = 0;
const never = (): void => {};
const noteFault = (_about: object, what: string): void => {
  if (!what.includes('was cut')) failures += 1;
};
const app = buildServer({
  // What came in goes out again: the worst that a reply could hold.
  receive: async ({ text, channel }) => {
    reached += 1;
    return { text: `${channel} ${text}`, ends: false };
  },
  report: async () => {
    reached += 1;
  },
  log: { info: never, warn: never, error: noteFault } as never,
  defaultCountry: 'KE',
  sms: { verifySignature: true, authToken, publicUrl },
  ussd: { verifySecret: true, secret, fits: (text) => fitsScreen(text, screen), busyText: () => 'busy', brokenText: () => 'broken' },
});
const server = await listen(app, 0);
const client = rawClient(server.port);

/** Without halves of surrogate pairs, which cannot be written in UTF-8. */
const wellFormed = (text: string): string => Buffer.from(text).toString();

/** A field of a form, written as a gateway would or not quite. */
function written(chance: Chance, name: string, value: string): string {
  const kind = chance.next();
  const encode = (text: string): string => encodeURIComponent(wellFormed(text)).replaceAll('%20', '+');
  if (kind < 0.86) return `${encode(name)}=${encode(value)}`;
  const pairs = [
    `${name}=${encode(value)}&${name}=${encode(noise(chance))}`,
    `${name}[]=${encode(value)}`,
    `${name}[__proto__]=${encode(value)}`,
    `${name}%00=${encode(value)}`,
    `${name}`,
    `${chance.pick(prototypeNames)}=${encode(value)}&${name}=${encode(value)}`,
    `${name}=${encode(value).slice(0, -1)}%`,
    `${name}=${value.replace(/[\r\n]/g, '')}`,
    `${name.toLowerCase()}=${encode(value)}`,
    `${'x='.repeat(chance.whole(1, 1_100))}&${name}=${encode(value)}`,
    Array.from({ length: chance.whole(1, 1_100) }, (_, at) => `f${at}=1`).join('&'),
  ];
  return chance.pick(pairs);
}

function text(chance: Chance): string {
  const kind = chance.next();
  if (kind < 0.4) return chance.pick(messages);
  return kind < 0.8 ? mutate(chance.pick(messages), chance, messages) : noise(chance);
}

const phone = (chance: Chance): string =>
  chance.is(0.75)
    ? worker
    : chance.pick([mutate(worker, chance), '254700000321', ' 254700000321', '0700000321', '00254700000321', '40404', noise(chance)]);
const id = (chance: Chance): string => (chance.is(0.85) ? `SM${chance.whole(0, 10 ** 9)}` : noise(chance));

type Fields = Readonly<Record<string, (chance: Chance) => string>>;
const fieldsOf: Readonly<Record<string, Fields>> = {
  '/sms': {
    MessageSid: id,
    From: phone,
    Body: text,
    To: () => '+254700000999',
    OptOutType: (chance) => chance.pick(['', 'STOP', 'HELP', '?']),
  },
  '/sms/status': {
    MessageSid: id,
    MessageStatus: (chance) => chance.pick(['sent', 'delivered', 'failed', 'undelivered', 'queued', noise(chance)]),
    ErrorCode: (chance) => chance.pick(['30003', '0', noise(chance)]),
  },
  '/ussd': { sessionId: id, phoneNumber: phone, serviceCode: () => '*384*7#', networkCode: () => '63902', text },
};

function form(chance: Chance, fields: Fields): string {
  const pairs = Object.entries(fields).filter(([name]) => chance.is(name === 'OptOutType' ? 0.1 : 0.96));
  const body = pairs.map(([name, draw]) => written(chance, name, draw(chance))).join('&');
  if (chance.is(0.0005)) return `Body=${'a'.repeat(10_000_000)}`;
  return chance.is(0.01) ? `${body}&Body=${'%41'.repeat(chance.whole(3_000, 7_000))}` : body;
}

/** A line of a header as bytes; line breaks in it are what a sender would put there to add a header of his own. */
function oddHeader(chance: Chance): string {
  return chance.pick([
    `X-Any: ${oddity(chance)}\r\nX-Injected: yes`,
    `Content-Length: ${chance.whole(0, 99)}`,
    'Transfer-Encoding: chunked',
    `Content-Encoding: ${chance.pick(['gzip', 'br', 'deflate', 'identity', 'zip'])}`,
    `Content-Type: ${chance.pick(['application/json', 'multipart/form-data; boundary=x', 'application/x-www-form-urlencoded; charset=utf-7', 'text/xml'])}`,
    `Expect: ${chance.pick(['100-continue', '200-ok'])}`,
    `Cookie: ${noise(chance)}`,
    `X-Forwarded-For: ${'1.1.1.1, '.repeat(chance.whole(1, 800))}`,
    `X-Long: ${'a'.repeat(chance.whole(1, 20_000))}`,
    ' : folded',
    'no colon',
    'Host: evil.example',
    `${oddity(chance)}: x`,
  ]);
}

const pathOf = (chance: Chance, path: string): string => {
  if (path === '/sms/status')
    return `${path}?text=${chance.is(0.85) ? 'a1'.repeat(16) : chance.pick(['', '%', '%E0%A4%A', 'a1&text=b2', encodeURIComponent(wellFormed(noise(chance)))])}`;
  if (path === '/sms')
    return chance.is(0.93)
      ? path
      : chance.pick([
          '/sms?',
          '/sms?a[b][c]=1',
          '//sms',
          '/sms/',
          '/SMS',
          '/sms%2f',
          '/sms/../sms',
          '/sms%00',
          'http://evil.example/sms',
          '/sms#',
          '*',
          '/s%6ds',
        ]);
  if (chance.is(0.7)) return `/ussd/${secret}`;
  return chance.pick([
    '/ussd',
    '/ussd/',
    `/ussd/${secret}%`,
    `/ussd/${secret}%00`,
    '/ussd/%E0%A4%A',
    '/ussd/%ff',
    `/ussd/${mutate(secret, chance).replace(/[^!-~]/g, '')}`,
    `/ussd//${secret}`,
    `/ussd/${encodeURIComponent(secret)}?x=%`,
    `/ussd/${'a'.repeat(chance.whole(1, 9_000))}`,
  ]);
};

/** Parts of a request: method, path, proof, odd header, body. */
function draw(path: string): (chance: Chance) => string[] {
  return (chance) => {
    const body = form(chance, fieldsOf[path] ?? {});
    const proof = chance.is(0.93)
      ? 'proven'
      : chance.pick(['', noise(chance).replace(/[\r\n]/g, ''), 'AAAAAAAAAAAAAAAAAAAAAAAAAAA=', secret.slice(1)]);
    return [
      chance.is(0.97) ? 'POST' : chance.pick(['GET', 'PUT', 'HEAD', 'OPTIONS', 'POSTS']),
      pathOf(chance, path),
      proof,
      chance.is(0.12) ? oddHeader(chance) : '',
      body,
    ];
  };
}

/** As the gateway signs it; nothing for a body that is no form. */
function signatureOf(target: string, body: string): string {
  try {
    return getExpectedTwilioSignature(authToken, publicUrl + target, parse(body));
  } catch {
    return '';
  }
}

async function take([method = 'POST', path = '/', proof = '', odd = '', body = '']: Input, timed: Timed): Promise<Outcome> {
  const target = path.replace(/[\r\n ]/g, '');
  const bytes = Buffer.from(body);
  const signature = proof === 'proven' ? signatureOf(target, bytes.toString()) : proof;
  const head = [
    `${method} ${target} HTTP/1.1`,
    'Host: 127.0.0.1',
    ...(odd.startsWith('Content-Type') ? [] : ['Content-Type: application/x-www-form-urlencoded']),
    `X-Twilio-Signature: ${signature}`,
    `Content-Length: ${bytes.length}`,
    ...(odd === '' ? [] : [odd]),
  ];
  const before = { reached, failures };
  // A body that is far too long is refused before it has come, and the next request is not to wait for the rest of it.
  const ends: Ends = odd === '' && method === 'POST' && bytes.length < 1_000_000 ? 'kept-alive' : 'closed';
  const request = Buffer.concat([Buffer.from(`${head.join('\r\n')}\r\n\r\n`, 'utf8'), bytes]);
  const answer = await timed(() => client.ask(request, ends));
  hold(answer);
  if (failures > before.failures) throw new Error('The server logged a fault of its own.');
  const isIn = reached > before.reached;
  const isOurs = target.startsWith('/ussd') ? target.includes(secret) || signature === secret : proof === 'proven';
  if (isIn && !isOurs) throw new Error('It was let in without a proof.');
  if (isIn) return 'accepted';
  return [0, 403, 404].includes(answer.status) ? 'refused-at-once' : 'refused';
}

function hold({ status, headers, body }: RawAnswer): void {
  if (status >= 500) throw new Error(`It was answered ${status}.`);
  if (/^x-injected/im.test(headers)) throw new Error('What was sent became a header of the answer.');
  if (status === 200 && /^content-type: text\/xml/im.test(headers)) {
    const wellFormed =
      /^<\?xml version="1\.0" encoding="UTF-8"\?><Response(?:\/>|><Message>(?:[^<>&]|&(?:amp|lt|gt|quot|apos);)*<\/Message><\/Response>)$/u;
    if (!wellFormed.test(body)) throw new Error(`The answer is not one message: ${body}`);
  }
  if (status === 200 && /^(?:CON|END) /.test(body) && !fitsScreen(body.slice(4), screen))
    throw new Error(`The answer has no room on a screen: ${body}`);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: none of them may go out.
  if (status === 200 && /[\0-\x08\x0b-\x1f]/.test(body)) throw new Error('The answer holds control characters.');
}

export const webhooks: readonly Target[] = Object.keys(fieldsOf).map((path) => ({
  name: `webhooks${path}`,
  share: path === '/sms/status' ? 8 : 16,
  limitMilliseconds: usualLimitMilliseconds,
  draw: draw(path),
  take,
  close: async () => {
    client.close();
    await server.close();
  },
}));
