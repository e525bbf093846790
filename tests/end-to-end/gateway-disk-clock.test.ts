// A gateway that has no room, breaks, or answers long after anybody waits; a disk without room under Redis and under PostgreSQL; a clock
// that is set while the server runs. Each with a server process, Redis and PostgreSQL as they are deployed.

import { mkdirSync, rmdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Redis } from 'ioredis';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTwiml } from '../support/channel-sms.ts';
import { answerNoneUntilResult, deliver, examineWellBaby, phoneThatTexts, type Send, textOf, WHO } from '../support/end-to-end-phones.ts';
import { NURSE } from '../support/end-to-end-programme.ts';
import { type ServerProcess, startServerProcess } from '../support/end-to-end-server.ts';
import { type Stack, startStack } from '../support/end-to-end-stack.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const patiently = { timeout: 30_000 };
const HOUR = 3_600_000;

let stack: Stack;
let server: ServerProcess;

beforeAll(async () => {
  stack = await startStack(30);
  server = await startServerProcess(stack.environment);
});
afterAll(async () => {
  await server?.end('SIGTERM');
  await stack?.close();
});

const textsTo = (at: ServerProcess, worker: string) => phoneThatTexts(() => at.url, worker);

/** Goes on after a danger until the advice stands again at the end. */
async function finishSick(send: Send): Promise<void> {
  let reply = await send('2');
  for (let asked = 0; asked < 30 && !reply.includes('REFER NOW'); asked += 1)
    reply = await send(reply.includes('36.8') ? '36.8 44 132' : '0');
  expect(reply).toContain('REFER NOW');
}

describe('a gateway', () => {
  it.each([429, 500, 503])('that answers %i is given the urgent text again, and takes it once', async (status) => {
    const worker = stack.freshWorker();
    const send = textsTo(server, worker);
    await send(`BABY ${WHO}`);
    const before = stack.gateway.refused;
    stack.gateway.refuseNext(status, 1);
    expect(await send('1')).toContain('REFER NOW');
    await expect.poll(() => stack.nurseTexts(worker), patiently).toHaveLength(1);
    expect(stack.gateway.refused).toBe(before + 1);
  });

  it('that answers after anybody waits: the urgent text goes again rather than be lost, and the worker never notices', async () => {
    const worker = stack.freshWorker();
    const send = textsTo(server, worker);
    await send(`BABY ${WHO}`);
    const held = stack.gateway.holdFor(NURSE);
    expect(await send('1')).toContain('REFER NOW');
    await expect.poll(() => held.waiting(), patiently).toBeGreaterThan(0);
    // The second time it is asked, the first was given up.
    await expect.poll(() => held.waiting(), patiently).toBeGreaterThan(1);
    held.letGo();
    await expect.poll(() => stack.nurseTexts(worker).length, patiently).toBeGreaterThanOrEqual(1);
    expect(new Set(stack.nurseTexts(worker)).size).toBe(1);
    await finishSick(send);
    await expect.poll(() => stack.register.examinations(worker), patiently).toHaveLength(1);
  });
});

describe('a disk without room', () => {
  it('under Redis: it takes no more, a text is answered 500, and counts once when there is room', async () => {
    const worker = stack.freshWorker();
    await textsTo(server, worker)(`BABY ${WHO}`);
    const redis = new Redis(stack.stores.redis.url);
    const [, folder] = (await redis.config('GET', 'dir')) as [string, string];
    // A snapshot that cannot be written is how Redis learns of a full disk; so is one whose place is taken.
    const place = join(folder, 'dump.rdb');
    mkdirSync(place);
    await redis.config('SET', 'save', '3600 1');
    await redis.bgsave();
    await expect.poll(() => redis.info('persistence'), patiently).toContain('rdb_last_bgsave_status:err');
    const text = textOf(worker, '1');
    expect((await deliver(server.url, text)).status).toBe(500);
    expect(await stack.register.alerts(worker)).toEqual([]);

    rmdirSync(place);
    await redis.bgsave();
    await expect.poll(() => redis.info('persistence'), patiently).toContain('rdb_last_bgsave_status:ok');
    await redis.config('SET', 'save', '');
    redis.disconnect();
    await stack.endLock(worker);
    await expect.poll(async () => readTwiml((await deliver(server.url, text)).body) ?? '', patiently).toContain('REFER NOW');
    await expect.poll(() => stack.nurseTexts(worker), patiently).toHaveLength(1);
    expect(await stack.register.alerts(worker)).toHaveLength(1);
  });

  it('under PostgreSQL: advice and the nurse’s text go out at once, and all is written once there is room', async () => {
    const small = await startStack(2, { ownDiskMegabytes: 200 });
    const own = await startServerProcess(small.environment);
    const worker = small.freshWorker();
    const send = textsTo(own, worker);
    await send(`BABY ${WHO}`);
    small.stores.postgres.fillDisk();
    expect(await send('1')).toContain('REFER NOW');
    await finishSick(send);
    expect(await small.keptEntries()).toBeGreaterThan(0);
    expect(small.nurseTexts(worker)).not.toEqual([]);
    small.stores.postgres.freeDisk();
    await expect.poll(() => small.keptEntries(), patiently).toBe(0);
    expect(await small.register.examinations(worker)).toHaveLength(1);
    expect(await small.register.alerts(worker)).toHaveLength(1);
    await own.end('SIGTERM');
    await small.close();
  });
});

describe('a clock that is set while the server runs', () => {
  it.each([
    ['back by an hour', -HOUR],
    ['forward by three hours', 3 * HOUR],
  ])('%s: the examination goes on, what was answered stays answered, and the nurse hears', async (_how, step) => {
    const folder = temporaryFolder();
    const clock = join(folder.path, 'clock');
    writeFileSync(clock, '0');
    const command = ['--import', 'tsx', '--import', './tests/support/stepping-clock.ts', 'src/cli/pipit.ts'];
    const stepping = await startServerProcess({ ...stack.environment, CLOCK_FILE: clock }, command);
    const [well, sick] = [stack.freshWorker(), stack.freshWorker()];
    const begun = textOf(well, `BABY ${WHO}`);
    const asked = (await deliver(stepping.url, begun)).body;
    await textsTo(stepping, sick)(`BABY ${WHO}`);
    writeFileSync(clock, String(step));
    expect((await deliver(stepping.url, begun)).body).toBe(asked);
    expect(await textsTo(stepping, sick)('1')).toContain('REFER NOW');
    await expect.poll(() => stack.nurseTexts(sick), patiently).toHaveLength(1);
    const send = textsTo(stepping, well);
    for (const none of ['0', '0', '0']) await send(none);
    await send('36.8 44 132');
    expect(await answerNoneUntilResult(send)).toContain('WELL');
    await expect.poll(() => stack.register.examinations(well), patiently).toHaveLength(1);
    writeFileSync(clock, '0');
    const later = stack.freshWorker();
    await textsTo(stepping, later)(`BABY ${WHO}`);
    expect(await textsTo(stepping, later)('1')).toContain('REFER NOW');
    await expect.poll(() => stack.nurseTexts(later), patiently).toHaveLength(1);
    expect(await examineWellBaby(textsTo(stepping, well))).toContain('WELL');
    await expect.poll(() => stack.register.examinations(well), patiently).toHaveLength(2);
    await stepping.end('SIGTERM');
    folder.remove();
  });
});
