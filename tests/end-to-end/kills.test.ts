// Kills of servers, of processes at work, of Redis and of PostgreSQL at moments drawn from a seed, while workers report urgent
// babies over HTTP, nurses take their alerts, and the gateway delivers every unanswered text again. A moment is the passing of a
// piece to or from a store or the gateway. The seed is in the name of the test; SEED and KILLS in the environment set others.
// Next: tests/support/end-to-end-kill-*.ts, end-to-end-killed-*.ts.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Built, buildCommand } from '../support/end-to-end-build.ts';
import { expectEachExaminationOnce, expectOneTakerEach, expectTextsAsPromised } from '../support/end-to-end-kill-claims.ts';
import { drawMoments } from '../support/end-to-end-kill-moments.ts';
import { startNurses } from '../support/end-to-end-kill-nurses.ts';
import { insisting } from '../support/end-to-end-kill-phones.ts';
import { examineThroughKills } from '../support/end-to-end-kill-workers.ts';
import { NUMBER_OF_WORK, startKilledProcesses } from '../support/end-to-end-killed-processes.ts';
import { killedStores } from '../support/end-to-end-killed-stores.ts';
import { seededRandom } from '../support/end-to-end-seed.ts';
import { type Stack, startStack } from '../support/end-to-end-stack.ts';

const seed = Number(process.env.SEED ?? 20_261_124);
const kills = Number(process.env.KILLS ?? 220);
const workers = 6;
/** The last alerts may wait for nurses who answer one text after another. */
const patiently = { timeout: 400_000, interval: 200 };

let stack: Stack;
let built: Built;

beforeAll(async () => {
  built = buildCommand({ isUnchecked: true });
  stack = await startStack(workers + 1, { nurses: 3, saving: true });
});
afterAll(async () => {
  await stack?.close();
  built?.remove();
});

it(`keeps each baby, alert and text through ${kills} kills (seed ${seed})`, { timeout: 1_800_000 }, async () => {
  const random = seededRandom(seed);
  const moments = drawMoments(random, kills);
  const stores = killedStores(stack.stores, random);
  const processes = await startKilledProcesses(stack, built.command, moments, stores);
  const phones = insisting(stack, processes, stores);
  const nurses = startNurses(stack, phones, stores, random);
  const { register, gateway } = stack;

  const used = new Set<string>();
  const goesOn = (): boolean => moments.remaining() > 0;
  const numbers = Array.from({ length: workers }, () => stack.freshWorker());
  const examined = await Promise.all(numbers.map((phone) => examineThroughKills(phone, phones, stack, stores, used, goesOn)));
  await processes.tidyUp();
  await expect.poll(() => stack.keptEntries(), patiently).toBe(0);
  expect((await register.allAlerts()).map(({ code }) => code)).toEqual(expect.arrayContaining([...nurses.read()]));
  await expect.poll(() => register.untaken(), patiently).toEqual([]);
  const answered = await nurses.answered();
  await expect.poll(async () => (await register.allTexts()).filter(({ state }) => state === 'due'), patiently).toEqual([]);
  await processes.end();
  expect(moments.remaining()).toBe(0);
  expect(processes.endedByThemselves()).toEqual([]);

  await expectEachExaminationOnce(stack, examined);
  await expectOneTakerEach(stack, examined, answered);
  const { texts, twice, perhaps } = await expectTextsAsPromised(stack);
  expect(phones.redelivered()).toBeGreaterThan(0);

  const direct = gateway.taken.filter(({ from }) => from !== NUMBER_OF_WORK).length;
  const passedOn = [...answered.values()].reduce((sum, { silent }) => sum + silent, 0);
  process.stdout.write(
    `${JSON.stringify(moments.had())}: ${answered.size} urgent babies, ${texts} texts (${direct} sent past the register, ` +
      `${twice} twice, ${perhaps} perhaps), ${passedOn} alerts not taken in time, ${phones.redelivered()} redeliveries\n`,
  );
});
