// The whole product over real servers: Redis, PostgreSQL, the webhooks with the gateway's own signatures, and a gateway
// that takes what is sent out. Only the phones and the gateway are ours. Next: faults.test.ts, kills.test.ts.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AUTH_TOKEN, PUBLIC_URL, postForm, SECRET } from '../support/channel-doors.ts';
import { inboundSms, sign } from '../support/channel-sms.ts';
import { type FakeGateway, startFakeGateway } from '../support/end-to-end-gateway.ts';
import {
  answerNoneUntilResult,
  beginVitals,
  deliver,
  dial,
  examineWellBaby,
  phoneThatTexts,
  RESULT,
  textOf,
  WHO,
} from '../support/end-to-end-phones.ts';
import { ACCOUNT, makeProgramme, NURSE, type Programme } from '../support/end-to-end-programme.ts';
import { type RegisterView, viewRegister } from '../support/end-to-end-register.ts';
import { settingsWith, startServerHere, startServerProcess } from '../support/end-to-end-server.ts';
import { freshPhone } from '../support/fresh-phone.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { type RedisServer, startRedisServer } from '../support/redis-server.ts';

const patiently = { timeout: 30_000 };

let redis: RedisServer;
let postgres: PostgresServer;
let gateway: FakeGateway;
let programme: Programme;
let register: RegisterView;
let nextWorker = 0;
const freshWorker = (): string => {
  nextWorker += 1;
  return programme.worker(nextWorker);
};

beforeAll(async () => {
  programme = makeProgramme(30);
  [redis, postgres, gateway] = await Promise.all([startRedisServer(), startPostgresServer(), startFakeGateway(ACCOUNT, AUTH_TOKEN)]);
  register = viewRegister(postgres.url);
});

afterAll(async () => {
  await register?.close();
  await Promise.all([redis?.stop(), postgres?.stop(), gateway?.close()]);
  programme?.remove();
});

const places = [
  {
    place: 'in a process of its own',
    start: async () => {
      const server = await startServerProcess({
        ...settingsWith(gateway.url),
        ...programme.environment,
        REDIS_URL: redis.url,
        DATABASE_URL: postgres.url,
      });
      return { url: server.url, stop: () => server.end('SIGTERM') };
    },
  },
  {
    place: 'within this process',
    start: () =>
      startServerHere({ ...settingsWith(gateway.url), ...programme.environment, REDIS_URL: redis.url, DATABASE_URL: postgres.url }),
  },
];

describe.each(places)('a server $place', ({ start }) => {
  let server: { readonly url: string; stop(): Promise<void> };
  const url = () => server.url;

  beforeAll(async () => {
    server = await start();
  });
  afterAll(() => server?.stop());

  it('walks a worker through a normal examination by SMS and writes it down once', async () => {
    const worker = freshWorker();
    const result = await examineWellBaby(phoneThatTexts(url, worker));
    expect(result).toContain('WELL');
    const rows = await register.examinations(worker);
    expect(rows).toHaveLength(1);
    expect(result).toContain(rows[0]!.code);
    expect(rows[0]!.body.case.findings).toMatchObject({ temperature: [36.8], 'respiratory-rate': [44], 'heart-rate': [132] });
    expect(await register.alerts(worker)).toEqual([]);
    expect(await register.texts(worker)).toEqual([]);
  });

  it('tells the nurse of an urgent baby exactly once, and the worker that she has it', async () => {
    const worker = freshWorker();
    const send = phoneThatTexts(url, worker);
    await send(`BABY ${WHO}`);
    expect(await send('1')).toContain('REFER NOW');
    const toNurse = () => gateway.takenFor(NURSE).filter((text) => text.includes(worker));
    await expect.poll(toNurse, patiently).toHaveLength(1);
    const [handover] = toNurse() as [string];
    for (const part of ['URGENT', 'girl 5 h', 'Marula HC', 'fit', worker]) expect(handover).toContain(part);

    const [alert] = await register.alerts(worker);
    expect(handover.startsWith(`${alert!.code} `)).toBe(true);
    expect(await phoneThatTexts(url, NURSE)(alert!.code)).toContain(worker);
    expect(await register.alerts(worker)).toMatchObject([{ code: alert!.code, state: 'taken', taken_by: NURSE }]);
    await expect.poll(() => gateway.takenFor(worker), patiently).toHaveLength(1);
    expect(gateway.takenFor(worker)[0]).toContain(NURSE);

    await send('2');
    await send('0');
    await send('0');
    await send('36.8 44 132');
    expect(await answerNoneUntilResult(send)).toContain('REFER NOW');
    expect(await register.examinations(worker)).toHaveLength(1);
    expect(toNurse()).toHaveLength(1);
  });

  it('walks a worker through an examination in one USSD call', async () => {
    const worker = freshWorker();
    const call = dial(url, worker);
    const first = await call.key();
    expect(first.goesOn).toBe(true);
    await call.key(WHO);
    for (const none of ['0', '0', '0']) await call.key(none);
    await call.key('36*8 44 132');
    const result = await answerNoneUntilResult(async (text) => (await call.key(text)).screen);
    expect(result).toMatch(RESULT);
    expect(await register.examinations(worker)).toMatchObject([{ worker, body: { case: { findings: { temperature: [36.8] } } } }]);
  });

  it('goes on by SMS where a call dropped', async () => {
    const worker = freshWorker();
    const call = dial(url, worker);
    await call.key();
    await call.key(WHO);
    for (const none of ['0', '0']) await call.key(none);
    // The call is gone; nobody told us. She texts.
    const send = phoneThatTexts(url, worker);
    expect(await send('MENU')).toContain('Go on: girl 5 h');
    await send('1');
    await send('0');
    await send('36.8 44 132');
    expect(await answerNoneUntilResult(send)).toContain('WELL');
    expect(await register.examinations(worker)).toHaveLength(1);
  });

  it('says nothing clinical to a number that is not on the roster, and keeps nothing of it', async () => {
    const stranger = freshPhone();
    const send = phoneThatTexts(url, stranger);
    for (const text of ['BABY', `BABY ${WHO}`, '1']) {
      expect(await send(text)).toBe('This number is not on the roster. Ask your coordinator.');
    }
    const { screen, goesOn } = await dial(url, stranger).key();
    expect({ screen, goesOn }).toEqual({ screen: 'This number is not on the roster. Ask your coordinator.', goesOn: false });
    expect(await register.examinations(stranger)).toEqual([]);
    expect(await register.texts(stranger)).toEqual([]);
  });

  it('refuses a text whose signature is wrong, missing, or made for the address it listens on', async () => {
    const form = inboundSms({ From: freshWorker(), Body: 'BABY' });
    const signatures = {
      wrong: sign(form, `${PUBLIC_URL}/sms`, 'another-token'),
      missing: '',
      ofAnotherText: sign({ ...form, Body: 'MENU' }),
      ofTheSocket: sign(form, `${server.url}/sms`),
    };
    for (const signature of Object.values(signatures)) {
      expect((await postForm(`${server.url}/sms`, form, { 'x-twilio-signature': signature })).status).toBe(403);
    }
    expect((await postForm(`${server.url}/sms`, form, { 'x-twilio-signature': sign(form) })).status).toBe(200);
  });

  it('refuses a call that does not carry the secret', async () => {
    const form = { sessionId: 'ATUid_refused', phoneNumber: freshWorker(), text: '' };
    expect((await postForm(`${server.url}/ussd`, form)).status).toBe(403);
    expect((await postForm(`${server.url}/ussd/${SECRET}x`, form)).status).toBe(403);
    expect((await postForm(`${server.url}/ussd/${SECRET}`, form)).status).toBe(200);
  });
});

describe('a server with nothing but a folder', () => {
  it('goes on in the middle of an examination after a restart, and after a kill', async () => {
    const worker = freshWorker();
    const environment = { ...settingsWith(gateway.url), ...programme.environment, PIPIT_ALLOW_EMBEDDED: '1' };
    let server = await startServerProcess(environment);
    const send = phoneThatTexts(() => server.url, worker);
    await beginVitals(send);
    const text = textOf(worker, '36.8 44 132');
    const answered = await deliver(server.url, text);

    await server.end('SIGTERM');
    server = await startServerProcess(environment);
    expect(await deliver(server.url, text)).toMatchObject({ status: 200, body: answered.body });
    await send('0');

    await server.end('SIGKILL');
    server = await startServerProcess(environment);
    expect(await answerNoneUntilResult(send)).toContain('WELL');
    await server.end('SIGTERM');
  });
});
