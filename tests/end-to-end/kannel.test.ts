// The whole product behind a real Kannel, as Debian ships it: phones text its fake centre, and everything that they get comes
// from there. Next: examination.test.ts, the same by the twilio-compatible gateway.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { SECRET } from '../support/channel-doors.ts';
import { answerNoneUntilResult, examineWellBaby, type Send, WHO } from '../support/end-to-end-phones.ts';
import { makeProgramme, NUMBER_OF_OURS, NURSE, type Programme } from '../support/end-to-end-programme.ts';
import { type RegisterView, viewRegister } from '../support/end-to-end-register.ts';
import { inProduction, type ServerHere, startServerHere } from '../support/end-to-end-server.ts';
import { freePort } from '../support/free-port.ts';
import { type Handsets, openHandsets } from '../support/kannel-handset.ts';
import { freeKannelPorts, type KannelServer, SENDSMS, startKannel } from '../support/kannel-server.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { type RedisServer, startRedisServer } from '../support/redis-server.ts';

const patiently = { timeout: 30_000 };

let redis: RedisServer;
let postgres: PostgresServer;
let programme: Programme;
let register: RegisterView;
let server: ServerHere;
let kannel: KannelServer;
let handsets: Handsets;
const ENGLISH = 2;
const HINDI = 1;

const phone =
  (worker: string): Send =>
  (text) =>
    handsets.ask(worker, text);

beforeAll(async () => {
  programme = makeProgramme(10, 1, ['en', 'hi']);
  [redis, postgres] = await Promise.all([startRedisServer(), startPostgresServer()]);
  register = viewRegister(postgres.url);
  const [ports, port] = await Promise.all([freeKannelPorts(), freePort()]);
  const here = `127.0.0.1:${port}`;
  server = await startServerHere({
    ...programme.environment,
    ...inProduction,
    PORT: String(port),
    REDIS_URL: redis.url,
    DATABASE_URL: postgres.url,
    SMS_FROM: NUMBER_OF_OURS,
    PIPIT_KANNEL_URL: `http://127.0.0.1:${ports.sendsms}/cgi-bin/sendsms`,
    PIPIT_KANNEL_USER: SENDSMS.user,
    PIPIT_KANNEL_PASSWORD: SENDSMS.password,
    PIPIT_KANNEL_SECRET: SECRET,
    PIPIT_KANNEL_REACHES: `http://${here}`,
  });
  kannel = await startKannel(ports, `http://pipit:${SECRET}@${here}/kannel?id=%I`);
  handsets = await openHandsets(ports.centre, new Set([programme.worker(HINDI)]));
});

afterAll(async () => {
  handsets?.close();
  await kannel?.stop();
  await server?.stop();
  await register?.close();
  await Promise.all([redis?.stop(), postgres?.stop()]);
  programme?.remove();
});

it('carries a normal examination, and writes it down once', async () => {
  const worker = programme.worker(ENGLISH);
  const result = await examineWellBaby(phone(worker));
  expect(result).toContain('WELL');
  const rows = await register.examinations(worker);
  expect(rows).toHaveLength(1);
  expect(rows[0]!.body.case.findings).toMatchObject({ temperature: [36.8], 'respiratory-rate': [44], 'heart-rate': [132] });
  // A result is long; the phone got it in parts and joined them.
  expect(Math.max(...handsets.partsOf(worker))).toBeGreaterThan(1);
});

it('brings the nurse an urgent finding, and learns that it arrived', async () => {
  const worker = programme.worker(4);
  await handsets.ask(worker, `BABY ${WHO}`);
  expect(await handsets.ask(worker, '1')).toContain('REFER NOW');
  const handover = await handsets.next(NURSE);
  for (const part of ['URGENT', 'girl 5 h', 'fit', worker]) expect(handover).toContain(part);
  const [alert] = await register.alerts(worker);
  await expect.poll(() => register.texts(worker), patiently).toMatchObject([{ recipient: NURSE, state: 'delivered', attempts: 1 }]);

  expect(await handsets.ask(NURSE, alert!.code)).toContain(worker);
  expect(await handsets.next(worker)).toContain(NURSE);
  expect(await register.alerts(worker)).toMatchObject([{ state: 'taken', taken_by: NURSE }]);
});

it('reads a long text that came in parts as one', async () => {
  const worker = programme.worker(6);
  const long = ['BABY', 'GIRL', '5H', '39W', 'BW3100', 'T36.8', 'R44', 'P132'].join(' '.repeat(20));
  expect(long.length).toBeGreaterThan(160);
  // Nothing of it is said twice, so a part that is lost is missed in the end.
  const middle = long.indexOf('BW3100') + 2;
  expect(await handsets.askInParts(worker, [long.slice(0, middle), long.slice(middle)])).not.toBe('');
  await answerNoneUntilResult(phone(worker));
  const [examination] = await register.examinations(worker);
  expect(examination!.body.case.findings).toMatchObject({ temperature: [36.8], 'respiratory-rate': [44], 'heart-rate': [132] });
});

it('reads and writes Hindi', async () => {
  const worker = programme.worker(HINDI);
  const question = await handsets.ask(worker, 'नया शिशु', 'ucs2');
  expect(question).toMatch(/[\u0900-\u097f]{3}/);
  expect(await handsets.ask(worker, '१ ५ घंटे ३९ ३१००', 'ucs2')).toMatch(/[\u0900-\u097f]{3}/);
  expect(await handsets.ask(worker, '1')).toMatch(/[\u0900-\u097f]{3}/);
  expect(await register.alerts(worker)).toHaveLength(1);
});

it('sends nothing where there is nothing to say', async () => {
  const worker = programme.worker(8);
  // The carrier answers this one itself; the next text of hers is the first that is answered here.
  handsets.say(worker, 'STOP');
  const before = handsets.partsOf(worker).length;
  for (const menu of ['MENU', 'MENU']) expect(await handsets.ask(worker, menu)).toContain('New baby');
  expect(handsets.partsOf(worker)).toHaveLength(before + 2);
});
