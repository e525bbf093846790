// The whole product at a message centre that speaks SMPP: examinations by text and by call, an urgent finding with its receipt, a long
// text in parts, Hindi, and a server that goes and comes back. The centre is run from the package that the adapter uses.
// Next: kannel.test.ts, examination.test.ts.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { answerNoneUntilResult, examineWellBaby, RESULT, type Send, WHO } from '../support/end-to-end-phones.ts';
import { makeProgramme, NUMBER_OF_OURS, NURSE, type Programme } from '../support/end-to-end-programme.ts';
import { type RegisterView, viewRegister } from '../support/end-to-end-register.ts';
import { inProduction, type ServerHere, startServerHere } from '../support/end-to-end-server.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { type RedisServer, startRedisServer } from '../support/redis-server.ts';
import { CENTRE, type Smsc, startSmsc, textFrom, ussdFrom } from '../support/smsc.ts';

const DELIVERED = 2;

let redis: RedisServer;
let postgres: PostgresServer;
let programme: Programme;
let register: RegisterView;
let smsc: Smsc;
let server: ServerHere;

const phone =
  (worker: string): Send =>
  (text) =>
    smsc.ask(worker, text);

async function startServer(): Promise<ServerHere> {
  const bound = smsc.nextBind();
  const started = await startServerHere({
    ...programme.environment,
    ...inProduction,
    REDIS_URL: redis.url,
    DATABASE_URL: postgres.url,
    SMS_FROM: NUMBER_OF_OURS,
    PIPIT_SMPP_URL: `smpp://127.0.0.1:${smsc.port}`,
    PIPIT_SMPP_ID: CENTRE.systemId,
    PIPIT_SMPP_PASSWORD: CENTRE.password,
  });
  await bound;
  return started;
}

beforeAll(async () => {
  programme = makeProgramme(10, 1, ['en', 'hi']);
  [redis, postgres, smsc] = await Promise.all([startRedisServer(), startPostgresServer(), startSmsc()]);
  register = viewRegister(postgres.url);
  server = await startServer();
});

afterAll(async () => {
  await server?.stop();
  await smsc?.close();
  await register?.close();
  await Promise.all([redis?.stop(), postgres?.stop()]);
  programme?.remove();
});

it('carries a normal examination by text, and writes it down once', async () => {
  const worker = programme.worker(0);
  expect(await examineWellBaby(phone(worker))).toContain('WELL');
  expect(await register.examinations(worker)).toMatchObject([{ body: { case: { findings: { temperature: [36.8] } } } }]);
});

it('carries a normal examination in one call', async () => {
  const worker = programme.worker(2);
  const session = Buffer.from('1f2e', 'hex');
  const key: (operation: number, text: string) => Promise<string> = async (operation, text) => {
    await smsc.deliver(ussdFrom(worker, session, operation, text));
    return (await smsc.next(worker.slice(1))).text;
  };
  await key(1, '*384#');
  await key(18, WHO);
  for (const none of ['0', '0', '0']) await key(18, none);
  await key(18, '36*8 44 132');
  expect(await answerNoneUntilResult((text) => key(18, text))).toMatch(RESULT);
  expect(await register.examinations(worker)).toMatchObject([{ worker, body: { case: { findings: { temperature: [36.8] } } } }]);
});

it('brings the nurse an urgent finding, and learns from the receipt that it arrived', async () => {
  const worker = programme.worker(4);
  await smsc.ask(worker, `BABY ${WHO}`);
  expect(await smsc.ask(worker, '1')).toContain('REFER NOW');
  const handover = await smsc.next(NURSE.slice(1));
  for (const part of ['URGENT', 'girl 5 h', 'fit', worker]) expect(handover.text).toContain(part);
  await smsc.receipt(handover, DELIVERED);
  expect(await register.texts(worker)).toMatchObject([{ recipient: NURSE, state: 'delivered', attempts: 1 }]);
  const [alert] = await register.alerts(worker);
  expect(await smsc.ask(NURSE, alert!.code)).toContain(worker);
  expect((await smsc.next(worker.slice(1))).text).toContain(NURSE);
});

it('reads a long text that came in parts as one', async () => {
  const worker = programme.worker(6);
  const part = (number: number, text: string) => ({
    ...textFrom(worker, ''),
    esm_class: 0x40,
    short_message: Buffer.concat([Buffer.from([5, 0, 3, 77, 2, number]), Buffer.from(text)]),
  });
  const reply = smsc.next(worker.slice(1));
  await smsc.deliver(part(1, 'BABY GIRL 5H 39W BW31'));
  await smsc.deliver(part(2, '00 T36.8 R44 P132'));
  await reply;
  await answerNoneUntilResult(phone(worker));
  const [examination] = await register.examinations(worker);
  expect(examination!.body.case.findings).toMatchObject({ temperature: [36.8], 'respiratory-rate': [44], 'heart-rate': [132] });
});

it('reads and writes Hindi', async () => {
  const worker = programme.worker(1);
  expect(await smsc.ask(worker, 'नया शिशु')).toMatch(/[\u0900-\u097f]{3}/);
  expect(await smsc.ask(worker, '१ ५ घंटे ३९ ३१००')).toMatch(/[\u0900-\u097f]{3}/);
  expect(await smsc.ask(worker, '1')).toMatch(/[\u0900-\u097f]{3}/);
  expect(await register.alerts(worker)).toHaveLength(1);
});

it('takes leave of the centre, and goes on where it was when it comes back', async () => {
  const worker = programme.worker(8);
  const send = phone(worker);
  await send('BABY');
  await send(WHO);
  await server.stop();
  expect(smsc.heard).toContain('unbind');
  server = await startServer();
  for (const none of ['0', '0', '0']) await send(none);
  await send('36.8 44 132');
  expect(await answerNoneUntilResult(send)).toContain('WELL');
  expect(await register.examinations(worker)).toHaveLength(1);
});
