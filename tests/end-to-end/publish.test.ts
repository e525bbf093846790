// A coordinator publishes while workers are in the middle of examinations, with the command, over two servers that share their
// stores: answers hold, what changed its meaning is asked again, and everything comes back with one undo.

import { execFile } from 'node:child_process';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { answerNoneUntilResult, phoneThatTexts, RESULT, type Send, WHO } from '../support/end-to-end-phones.ts';
import { type ServerProcess, startServerProcess } from '../support/end-to-end-server.ts';
import { type Stack, startStack } from '../support/end-to-end-stack.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const patiently = { timeout: 30_000 };
const drafts = temporaryFolder();
let stack: Stack;
let servers: readonly ServerProcess[];

beforeAll(async () => {
  stack = await startStack(6);
  servers = await Promise.all([startServerProcess(stack.environment), startServerProcess(stack.environment)]);
});
afterAll(async () => {
  await Promise.all((servers ?? []).map((server) => server.end('SIGTERM')));
  await stack?.close();
  drafts.remove();
});

/** `pipit publish`, by the programme's own settings; what it printed. */
async function publish(...args: readonly string[]): Promise<{ readonly stdout: string; readonly exitCode: number }> {
  const command = ['--import', 'tsx', 'src/cli/pipit.ts', 'publish', ...args];
  const env = { PATH: process.env.PATH ?? '', ...stack.environment };
  return promisify(execFile)(process.execPath, command, { cwd: root, env }).then(
    ({ stdout }) => ({ stdout, exitCode: 0 }),
    (error: { stdout: string; code: number }) => ({ stdout: error.stdout, exitCode: error.code }),
  );
}

/** A copy of what is shipped with edits, `[file, find, put]`; the options that publish it. */
function edited(name: string, ...edits: readonly (readonly [file: string, find: string, put: string])[]): string[] {
  const folder = join(drafts.path, name);
  cpSync(join(root, 'flows'), join(folder, 'flows'), { recursive: true });
  cpSync(join(root, 'locales/en'), join(folder, 'locales/en'), { recursive: true });
  for (const [file, find, put] of edits) {
    const text = readFileSync(join(folder, file), 'utf8');
    expect(text).toContain(find);
    writeFileSync(join(folder, file), text.replaceAll(find, put));
  }
  return ['--flows', join(folder, 'flows'), '--locales', join(folder, 'locales')];
}

/** Until a region whose title begins so is asked, answering none. */
async function answerUntil(send: Send, title: string, last: string): Promise<string> {
  let reply = last;
  for (let asked = 0; asked < 20 && !reply.includes(title); asked += 1) reply = await send('0');
  expect(reply).toContain(title);
  return reply;
}

async function beginUntilEyes(send: Send): Promise<void> {
  await send(`BABY ${WHO}`);
  for (const none of ['0', '0', '0']) await send(none);
  await answerUntil(send, 'EYES', await send('36.8 44 132'));
}

/** Of the files in force when this worker's examination ended. */
const versionOf = async (worker: string): Promise<string | undefined> => (await stack.register.examinations(worker))[0]?.version;

it('goes on with a running examination across a publication and its undo, on every server', async () => {
  const [one, two] = servers.map((server) => () => server.url) as [() => string, () => string];
  const [before, during, after] = [stack.freshWorker(), stack.freshWorker(), stack.freshWorker()];
  const ends = async (worker: string, url: () => string): Promise<string> => {
    const send = phoneThatTexts(url, worker);
    await beginUntilEyes(send);
    return answerNoneUntilResult(send);
  };
  expect(await ends(before, one)).toMatch(RESULT);

  const send = phoneThatTexts(one, during);
  await beginUntilEyes(send);
  const [wording, meaning] = [
    ['locales/en/questions.yaml', 'title: "LIMBS, HIPS last."', 'title: "LIMBS, then HIPS."'] as const,
    [
      'flows/first-day-exam.yaml',
      '      - blue-grey-patch\n    more:\n',
      '      - dark-freckle-spots\n    more:\n      - blue-grey-patch\n',
    ] as const,
  ];
  const options = edited('moved', wording, meaning, [
    'flows/first-day-exam.yaml',
    '      - pink-flat-patches\n      - dark-freckle-spots\n',
    '      - pink-flat-patches\n',
  ]);
  const published = await publish(...options, '--by', 'Rose', '--note', 'freckles are often seen here');
  expect(published.stdout).toContain('Publication 2 is in force');
  await Promise.all(servers.map((server) => expect.poll(server.saidSoFar, patiently).toContain('"publication":2')));

  // The skin means something else now and is asked again, on whichever server; what else was answered stands.
  const again = phoneThatTexts(two, during);
  const skin = await again('0');
  expect(skin).toContain('SKIN.');
  expect(skin).toContain('8 dark freckle spots');
  expect(await answerUntil(again, 'LIMBS', await again('0'))).toContain('LIMBS, then HIPS.');
  expect(await answerNoneUntilResult(again)).toMatch(RESULT);
  const [row] = await stack.register.examinations(during);
  expect(row?.body.case.findings).toMatchObject({ temperature: [36.8], 'dark-freckle-spots': false });

  const undone = await publish('--undo', '--by', 'Rose');
  expect(undone.stdout).toContain('Publication 3 is in force');
  await Promise.all(servers.map((server) => expect.poll(server.saidSoFar, patiently).toContain('"publication":3')));
  expect(await ends(after, two)).toMatch(RESULT);
  const versions = await Promise.all([before, during, after].map(versionOf));
  expect(versions[1]).not.toBe(versions[0]);
  expect(versions[2]).toBe(versions[0]);
});

it('refuses what check refuses, and phones stay as they are', async () => {
  const options = edited('unsound', ['flows/protocol/limits.yaml', 'from: 35.5', 'from: 34.5']);
  const refused = await publish(...options, '--by', 'Rose');
  expect(refused.exitCode).toBe(1);
  expect(refused.stdout).toContain('Nothing was published.');
  expect((await publish('--list')).stdout).toMatch(/^3 {2}/);
});
