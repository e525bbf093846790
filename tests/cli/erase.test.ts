// `pipit erase` on a folder of its own: it shows before it erases, and says what it needs. What is gone: tests/register/erase.test.ts.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { readConfig } from '../../src/cli/config.ts';
import { erase } from '../../src/cli/erase.ts';
import { withRegister } from '../../src/cli/register-database.ts';
import { registerIn } from '../../src/register/register.ts';
import { examination, noon, ofBaby } from '../conformance/entries.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const folder = temporaryFolder();
const outcome = readConfig({ PIPIT_DATA: folder.path }, process.cwd());
if (outcome.kind === 'refused') throw new Error(outcome.faults.join('\n'));
const { config } = outcome;
const day = 86_400_000;
const babies = ['7FK', '7FK', '8AB', '9CD'].map((code) => ofBaby({ facility: 'valley', code }));

beforeAll(() =>
  withRegister(config, (database) => registerIn(database).record(babies.map((baby, at) => examination({ ...baby, at: noon - at * day })))),
);
afterAll(() => folder.remove());

const by = 'Invented Coordinator';
async function run(code: string | undefined, options: Partial<Parameters<typeof erase>[2]>): Promise<[number, string]> {
  const lines: string[] = [];
  const exitCode = await erase(config, code, { yes: false, by, ...options }, noon + day, (line) => lines.push(line));
  return [exitCode, lines.join('\n')];
}

it('shows what it would erase, and erases it when it is told to', async () => {
  const [asked, shown] = await run('8ab', { facility: 'valley' });
  expect([asked, shown]).toEqual([
    1,
    expect.stringMatching(/^8AB {2}valley {2}followed .*\nNothing was erased\. The same again with --yes/),
  ]);
  expect(await run('8ab', { facility: 'valley', yes: true })).toEqual([0, expect.stringMatching(/\nErased\.$/)]);
  expect(await run('8ab', { facility: 'valley', yes: true })).toEqual([1, 'No such baby, or it is erased already.']);
});

it('asks which, when several have the code, and takes one by its id', async () => {
  const [exitCode, shown] = await run('7FK', { facility: 'valley', yes: true });
  expect([exitCode, shown.split('\n')]).toEqual([1, [expect.any(String), expect.any(String), expect.stringMatching(/--id ID/)]]);
  expect(await run(undefined, { id: babies[0]?.baby ?? '', yes: true })).toEqual([0, expect.stringMatching(/\nErased\.$/)]);
});

it('erases all that were seen last so long ago, and no other', async () => {
  expect(await run(undefined, { olderThan: 3 })).toEqual([1, expect.stringMatching(/^1 to erase\. Nothing was erased\./)]);
  expect(await run(undefined, { olderThan: 3, yes: true })).toEqual([0, '1 erased.']);
  expect(await run(undefined, { olderThan: 3, yes: true })).toEqual([0, '0 erased.']);
  expect((await run('7FK', { facility: 'valley' }))[1]).toContain('7FK');
});

it.each([
  ['who erases', '7FK', { facility: 'valley', by: ' ' }, /--by NAME/],
  ['which facility', '7FK', {}, /--facility ID, or --id ID, or --older-than DAYS/],
  ['how many days', undefined, { olderThan: 0.5 }, /whole number of days/],
] as const)('asks %s', async (_, code, options, words) => {
  await expect(run(code, options)).rejects.toThrow(words);
});
