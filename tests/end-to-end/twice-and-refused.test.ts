// What networks and stores do besides being away: one text under two ids, a redial that reaches another process while the first is
// still at work, a Redis that is full or has become a replica, a PostgreSQL that may only be read. Three servers share the stores.

import { Redis } from 'ioredis';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTwiml } from '../support/channel-sms.ts';
import { deliver, dial, phoneThatTexts, textOf, WHO } from '../support/end-to-end-phones.ts';
import { type ServerProcess, startServerProcess } from '../support/end-to-end-server.ts';
import { type Stack, startStack, type Way } from '../support/end-to-end-stack.ts';

const patiently = { timeout: 30_000 };

let stack: Stack;
let others: Way;
let one: ServerProcess;
let other: ServerProcess;
/** Answers every text for itself, for phones that send faster than a person. */
let plain: ServerProcess;
let redis: Redis;

beforeAll(async () => {
  stack = await startStack(30);
  others = await stack.anotherWay();
  // Longer than any of these tests: what is the same text here is the same whatever the machine's speed.
  const settings = { PIPIT_SAME_TEXT_SECONDS: '60' };
  [one, other, plain] = await Promise.all([
    startServerProcess({ ...stack.environment, ...settings }),
    startServerProcess({ ...others.environment, ...settings }),
    startServerProcess(stack.environment),
  ]);
  redis = new Redis(stack.stores.redis.url);
});
afterAll(async () => {
  redis?.disconnect();
  await Promise.all([one, other, plain].map((server) => server?.end('SIGTERM')));
  await stack?.close();
});

const textsTo = (server: ServerProcess, worker: string) => phoneThatTexts(() => server.url, worker);

/** Whether a phone that nobody has used is answered. */
async function isServed(): Promise<boolean> {
  return (await deliver(one.url, textOf(stack.freshWorker(), 'MENU'))).status === 200;
}

describe('one text under two ids', () => {
  it.each([
    ['one after the other', async (deliveries: (() => Promise<string>)[]) => [await deliveries[0]!(), await deliveries[1]!()]],
    ['at once, at two servers', async (deliveries: (() => Promise<string>)[]) => Promise.all(deliveries.map((send) => send()))],
  ])('%s is answered the same and does once what it says', async (_how, deliverAll) => {
    const worker = stack.freshWorker();
    await textsTo(one, worker)(`BABY ${WHO}`);
    const replies = await deliverAll([() => textsTo(one, worker)('1'), () => textsTo(other, worker)('1')]);
    expect(replies[0]).toContain('REFER NOW');
    expect(replies[1]).toBe(replies[0]);
    await expect.poll(() => stack.nurseTexts(worker), patiently).toHaveLength(1);
    expect(await stack.register.alerts(worker)).toHaveLength(1);
    // The second did not answer what is asked next: to go on, "1" would tell the nurse more.
    expect(await stack.register.texts(worker)).toHaveLength(1);
  });
});

describe('a redial', () => {
  it('that reaches another process while the first is at work finds what was said before, and nothing is doubled', async () => {
    const worker = stack.freshWorker();
    const first = dial(() => one.url, worker);
    await first.key();
    await first.key(WHO.replaceAll(' ', '#'));
    await first.key('0');
    stack.relays.postgres.hang();
    const slow = dial(() => one.url, worker);
    await slow.key();
    const running = slow.key('1');
    const again = await dial(() => other.url, worker).key();
    expect(again.screen).not.toBe('');
    stack.relays.postgres.goOn();
    expect((await running).screen).not.toBe('');
    const later = await dial(() => other.url, worker).key();
    expect(later.screen).toContain('1');
    await expect.poll(() => stack.keptEntries(), patiently).toBe(0);
    expect(new Set((await stack.register.alerts(worker)).map(({ code }) => code)).size).toBeLessThanOrEqual(1);
  });
});

describe('a Redis that refuses', () => {
  it.each([
    ['is full', () => redis.config('SET', 'maxmemory', '1'), () => redis.config('SET', 'maxmemory', '0')],
    ['has become a replica of another', () => redis.call('REPLICAOF', '127.0.0.1', '1'), () => redis.call('REPLICAOF', 'NO', 'ONE')],
  ])('because it %s is answered 500, so that the gateway comes again; then what was said before stands', async (_why, begin, end) => {
    const worker = stack.freshWorker();
    await textsTo(one, worker)(`BABY ${WHO}`);
    await begin();
    const text = textOf(worker, '1');
    expect((await deliver(one.url, text)).status).toBe(500);
    expect(await stack.register.alerts(worker)).toEqual([]);
    await end();
    await expect.poll(isServed, patiently).toBe(true);
    await stack.endLock(worker);
    expect(readTwiml((await deliver(one.url, text)).body)).toContain('REFER NOW');
    await expect.poll(() => stack.nurseTexts(worker), patiently).toHaveLength(1);
    expect(await stack.register.alerts(worker)).toHaveLength(1);
  });
});

describe('a PostgreSQL that may only be read', () => {
  it('takes nothing; advice and the nurse’s text go out, and all is written once when it may be', async () => {
    const worker = stack.freshWorker();
    const send = textsTo(plain, worker);
    await send(`BABY ${WHO}`);
    await readOnly('on');
    const urgent = await send('1');
    expect(urgent).toContain('REFER NOW');
    expect(urgent).toContain('Not recorded yet');
    expect(stack.nurseTexts(worker)).toHaveLength(1);
    await readOnly('off');
    await expect.poll(() => stack.keptEntries(), patiently).toBe(0);
    expect(await stack.register.alerts(worker)).toHaveLength(1);
    expect(await stack.register.texts(worker)).toMatchObject([{ state: 'sent' }]);
    expect(stack.nurseTexts(worker)).toHaveLength(1);
  });

  async function readOnly(value: 'on' | 'off'): Promise<void> {
    const client = new pg.Client({ connectionString: stack.stores.postgres.url });
    await client.connect();
    await client.query(`alter system set default_transaction_read_only = ${value}`);
    await client.query('select pg_reload_conf()');
    await expect
      .poll(async () => (await client.query('show default_transaction_read_only')).rows[0].default_transaction_read_only, patiently)
      .toBe(value);
    await client.end();
  }
});
