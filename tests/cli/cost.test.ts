// `pipit cost` from files: its table, what an edit changes, and what it refuses.

import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { readConfig } from '../../src/cli/config.ts';
import { cost } from '../../src/cli/cost.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const outcome = readConfig({ PIPIT_ALLOW_DRAFTS: '1' }, process.cwd());
if (outcome.kind === 'refused') throw new Error(outcome.faults.join('\n'));
const { config } = outcome;
const folder = temporaryFolder();
afterAll(() => folder.remove());

const flags = { language: 'en', walks: 2, seed: 1, secondsPerScreen: 8, secondsPerCall: 180, format: 'text' };
async function printed(more: Partial<Parameters<typeof cost>[1]>, places: Partial<typeof config> = {}): Promise<string[]> {
  const lines: string[] = [];
  expect(await cost({ ...config, ...places }, { ...flags, ...more }, (line) => lines.push(line))).toBe(0);
  return lines;
}

it('says that nothing differs from the same files', async () => {
  expect((await printed({ againstFlows: config.flows })).at(-1)).toBe('Nothing of it differs from the other files.');
});

it('says what a longer wording costs, and a shorter one saves', async () => {
  const edited = join(folder.path, 'locales');
  cpSync(config.locales, edited, { recursive: true });
  const file = join(edited, 'en', 'questions.yaml');
  const text = readFileSync(file, 'utf8');
  const longer = text.replace('skin: { title: "SKIN.', 'skin: { title: "SKIN, in quiet and good light, chest bare.');
  expect(longer).not.toBe(text);
  writeFileSync(file, longer);
  const dearer = await printed({ againstLocales: config.locales }, { locales: edited });
  expect(dearer.filter((line) => line.startsWith('en sms all normal: '))).toEqual(['en sms all normal: +1 segments out']);
  const cheaper = await printed({ againstLocales: edited });
  expect(cheaper.filter((line) => line.startsWith('en sms all normal: '))).toEqual(['en sms all normal: -1 segments out']);
});

it('prints JSON with the version that it counted', async () => {
  const [json = ''] = await printed({ format: 'json' });
  const { version, costs } = JSON.parse(json) as { version: string; costs: readonly unknown[] };
  expect(version).toMatch(/^[0-9a-f]{16}$/);
  expect(costs).toHaveLength(8);
});

it.each([
  ['a language that is not there', { language: 'xx' }, /No language "xx"\. Give one of: en, /],
  ['no walks', { walks: 0 }, /--walks must be a whole number above 0/],
] as const)('refuses %s', async (_, more, words) => {
  await expect(printed(more)).rejects.toThrow(words);
});

it.each([
  ['a sign that no flow asks for', 'otherwise: 0.1\nsigns: { gruntng: 0.1 }', /names what no flow asks for: gruntng/],
  ['a share above one', 'otherwise: 2', /otherwise: /],
  ['no table', '- 1', /is no table of shares/],
] as const)('refuses a table of shares with %s', async (_, text, words) => {
  const file = join(folder.path, 'prevalence.yaml');
  writeFileSync(file, text);
  await expect(printed({ prevalence: file })).rejects.toThrow(words);
});
