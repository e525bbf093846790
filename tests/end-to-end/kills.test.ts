// Many kills at moments drawn from a seed, while workers report urgent babies over HTTP and their gateway delivers every
// unanswered text again. A moment is the passing of a piece to or from a store or the gateway: killed just before it goes on,
// it is lost; killed just after, its answer is. The seed is in the name of the test; SEED and KILLS in the environment set others.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { readTwiml } from '../support/channel-sms.ts';
import { type Built, buildCommand } from '../support/end-to-end-build.ts';
import { startKilledServers } from '../support/end-to-end-killed-servers.ts';
import { deliver, RESULT, type Text, textOf, WHO } from '../support/end-to-end-phones.ts';
import { NURSE } from '../support/end-to-end-programme.ts';
import { type Stack, startStack } from '../support/end-to-end-stack.ts';

const seed = Number(process.env.SEED ?? 20_261_124);
const kills = Number(process.env.KILLS ?? 40);
const workers = 6;
const busy = 'Still answering your last text';

let stack: Stack;
let built: Built;

beforeAll(async () => {
  built = buildCommand();
  stack = await startStack(workers + 1);
});
afterAll(async () => {
  await stack?.close();
  built?.remove();
});

it(`keeps each urgent baby and each alert once through ${kills} kills (seed ${seed})`, { timeout: 900_000 }, async () => {
  const servers = await startKilledServers(stack, built.command, seed, kills);
  const results = new Map<string, number>();
  let redelivered = 0;

  /** Delivers until there is an answer, as a gateway with a fallback does, and sends anew what met a busy phone. */
  async function insist(text: Text): Promise<string> {
    for (;;) {
      const answer = await deliver(await servers.url(), text).catch(() => null);
      const reply = answer?.status === 200 ? (readTwiml(answer.body) ?? '') : busy;
      if (!reply.startsWith(busy)) return reply;
      redelivered += 1;
      // The process that held this phone is dead; as if its lock had run out.
      await stack.endLock(text.from);
    }
  }

  async function work(worker: string): Promise<void> {
    const send = (body: string): Promise<string> => insist(textOf(worker, body));
    while (servers.remaining() > 0) {
      await send(`BABY ${WHO}`);
      expect(await send('1')).toContain('REFER NOW');
      await send('2');
      await send('0');
      await send('0');
      let reply = await send('38.4 44 132');
      for (let asked = 0; !RESULT.test(reply); asked += 1) {
        expect(asked, `no result: ${reply}`).toBeLessThan(30);
        reply = await send(reply.includes('REFER NOW') ? '2' : '0');
      }
      expect(reply).toContain('REFER NOW');
      results.set(worker, (results.get(worker) ?? 0) + 1);
    }
  }

  const phones = Array.from({ length: workers }, () => stack.freshWorker());
  await Promise.all(phones.map(work));
  await servers.settle();

  expect(servers.remaining()).toBe(0);
  const babies = [...results.values()].reduce((sum, one) => sum + one, 0);
  for (const worker of phones) {
    const examined = results.get(worker) ?? 0;
    const examinations = await stack.register.examinations(worker);
    expect(examinations).toHaveLength(examined);
    expect(await stack.register.alerts(worker)).toHaveLength(examined);
    expect(new Set(examinations.map(({ key }) => key.slice(0, key.lastIndexOf(':')))).size).toBe(examined);
  }
  const written = await stack.register.allTexts();
  expect(written.filter(({ state }) => state !== 'sent')).toEqual([]);
  const texts = written.filter(({ recipient }) => recipient === NURSE);
  const taken = stack.gateway.takenFor(NURSE);
  const told = [...new Set(texts.map(({ text }) => text))].map((text) => {
    const rows = texts.filter((row) => row.text === text);
    return {
      rows: rows.length,
      attempts: rows.reduce((sum, row) => sum + row.attempts, 0),
      times: taken.filter((one) => one === text).length,
    };
  });
  expect(told.filter(({ times, rows }) => times < rows)).toEqual([]);
  // A text comes twice only where a sender died over it.
  expect(told.filter(({ times, attempts }) => times > attempts)).toEqual([]);
  const again = taken.length - texts.length;
  expect(again).toBeLessThanOrEqual(kills);
  expect(redelivered).toBeGreaterThan(0);
  process.stdout.write(
    `${babies} urgent babies, ${texts.length} texts to the nurse, ${kills} kills, ${redelivered} redeliveries, ${again} texts twice\n`,
  );
});
