// Processes that only do what is due, beside a server that only answers: two of them share the texts, each text goes out once,
// and when one is killed over its texts none is lost and only those that it had in hand may go out twice.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { readTwiml } from '../support/channel-sms.ts';
import { type Built, buildCommand } from '../support/end-to-end-build.ts';
import { deliver, textOf, WHO } from '../support/end-to-end-phones.ts';
import { NURSE } from '../support/end-to-end-programme.ts';
import { startServerProcess, startWorkProcess } from '../support/end-to-end-server.ts';
import { type Stack, startStack } from '../support/end-to-end-stack.ts';

let stack: Stack;
let built: Built;

beforeAll(async () => {
  built = buildCommand();
  stack = await startStack(3);
}, 120_000);
afterAll(async () => {
  await stack?.close();
  built?.remove();
});

/** Texts that a sender claims at a time; so many may be in hand when it dies. */
const batch = 10;

const queued = (from: number, to: number, many: number) =>
  Array.from({ length: many }, (_, n) => ({
    key: `queued:${from}:${n}`,
    to: `+25470070${String(to + n).padStart(4, '0')}`,
    text: `text ${from}.${n}`,
  }));

async function untilAllAreSent(): Promise<void> {
  while ((await stack.register.allTexts()).some(({ state }) => state === 'due'));
}

it('two processes at work send each text once, and a server without work leaves them all to them', { timeout: 240_000 }, async () => {
  const server = await startServerProcess({ ...stack.environment, PIPIT_WORK: '0' }, [built.command]);
  const worker = stack.freshWorker();
  await deliver(server.url, textOf(worker, `BABY ${WHO}`));
  expect(readTwiml((await deliver(server.url, textOf(worker, '1'))).body)).toContain('REFER NOW');
  expect(stack.gateway.takenFor(NURSE)).toEqual([]);

  await stack.register.queueTexts(queued(1, 0, 100));
  const processes = await Promise.all([
    startWorkProcess(stack.environment, [built.command]),
    startWorkProcess(stack.environment, [built.command]),
  ]);
  await untilAllAreSent();
  expect(stack.gateway.takenFor(NURSE)).toHaveLength(1);
  const bodies = stack.gateway.taken.map(({ body }) => body).filter((body) => body.startsWith('text 1.'));
  expect([...bodies].sort()).toEqual(
    queued(1, 0, 100)
      .map(({ text }) => text)
      .sort(),
  );

  const held = stack.gateway.holdFor(queued(2, 200, 1)[0]?.to ?? '');
  await stack.register.queueTexts(queued(2, 200, 100));
  while (held.waiting() === 0) await stack.register.allTexts();
  const [first, ...others] = processes;
  await first?.end('SIGKILL');
  held.letGo();
  await stack.register.endClaims();
  await untilAllAreSent();
  const again = stack.gateway.taken.map(({ body }) => body).filter((body) => body.startsWith('text 2.'));
  expect(new Set(again).size).toBe(100);
  expect(again.length).toBeLessThanOrEqual(100 + 2 * batch);
  await Promise.all([...others, server].map((one) => one.end('SIGTERM')));
});
