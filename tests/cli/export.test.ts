// `pipit export` over an embedded register in a folder of its own: what it writes, and what it refuses with a remedy.

import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Config, readConfig } from '../../src/cli/config.ts';
import { type ExportOptions, type ExportOutcome, exportMonth } from '../../src/cli/export.ts';
import { withRegister } from '../../src/cli/register-database.ts';
import { importRoster } from '../../src/cli/roster.ts';
import { registerIn } from '../../src/register/register.ts';
import { flowsFolder } from '../support/default-protocol.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const folder = temporaryFolder();
afterAll(() => folder.remove());
const secret = 'a secret for tests only';
const noon = Date.UTC(2026, 10, 25, 9);
const usual: ExportOptions = { facility: 'marula', month: '2026-11', format: 'csv', language: 'en', deIdentified: false };
let config: Config;

const run = (options: Partial<ExportOptions> = {}, key?: string): Promise<ExportOutcome> =>
  exportMonth(config, { ...usual, ...options }, key);

beforeAll(async () => {
  const outcome = readConfig({ PIPIT_DATA: join(folder.path, 'data') }, join(flowsFolder, '..'));
  if (outcome.kind === 'refused') throw new Error(outcome.faults.join('\n'));
  config = outcome.config;
  await importRoster(config, join(flowsFolder, 'demo'), 'a test', noon, () => {});
  const id = '+254700555101-a-message';
  await withRegister(config, (database) =>
    registerIn(database).record([
      {
        kind: 'examination',
        key: `examination:${id}:0`,
        baby: id,
        worker: '=cmd()',
        facility: 'marula',
        code: '7FK',
        at: noon,
        flow: 'first-day-exam',
        urgency: 'routine',
        version: '0123456789abcdef',
        facts: { sex: 'girl', bornAt: noon - 18_000_000, gestationDays: 273, birthWeightGrams: 3100, card: '12/26' },
        body: {
          examination: {},
          case: { ageHours: 5, sex: 'girl', gestation: { weeks: 39 }, birthWeightGrams: 3100, findings: { temperature: [36.8] } },
          interpretation: { urgency: 'routine', classifications: [], missing: [], advice: [], computed: {} },
        },
      },
    ]),
  );
});

describe('an export', () => {
  it('is a table by default, in which no name runs as a formula', async () => {
    const { stdout, exitCode } = await run();
    expect(exitCode).toBe(0);
    expect(stdout.split('\r\n')[2]).toBe(`2026-11-25,12:00,7FK,first day,girl,5,39,3100,36.8,,,,,well,,,,,,'=cmd()`);
  });

  it('is a bundle when FHIR is asked for, de-identified with a secret', async () => {
    const plain = JSON.parse((await run({ format: 'fhir' })).stdout);
    expect(plain).toMatchObject({ resourceType: 'Bundle', type: 'transaction' });
    expect(JSON.stringify(plain)).toContain('7FK');
    const { stdout } = await run({ format: 'fhir', deIdentified: true }, secret);
    expect(stdout).not.toMatch(/7FK|254700555|12\/26|Marula|marula|cmd/);
    expect(JSON.parse(stdout).entry.length).toBeGreaterThan(3);
  });

  it('holds nothing of another month or facility', async () => {
    for (const other of [{ month: '2026-10' }, { facility: 'baobab' }])
      expect((await run(other)).stdout.split('\r\n').filter((line) => line !== '').length).toBeLessThanOrEqual(2);
  });

  it('goes to a file that only its owner may read, and never over one that is there', async () => {
    const out = join(folder.path, 'november.csv');
    expect((await run({ out })).stderr).toContain('1 examinations of 1 babies');
    expect(readFileSync(out, 'utf8')).toBe((await run()).stdout);
    expect(statSync(out).mode & 0o777).toBe(0o600);
    await expect(run({ out })).rejects.toThrow(/EEXIST/);
  });

  it.each<[string, Partial<ExportOptions>, string]>([
    ['a de-identified one without a secret', { deIdentified: true }, 'PIPIT_EXPORT_SECRET'],
    ['a format that it does not have', { format: 'xlsx' }, '--format csv'],
    ['a month that is none', { month: '11/2026' }, '2026-11'],
    ['a facility that the roster does not have', { facility: 'nowhere' }, 'marula'],
    ['a language that is not served', { language: 'hi' }, 'PIPIT_ALLOW_DRAFTS=1'],
  ])('refuses %s and says what to do', async (_what, options, remedy) => {
    const { exitCode, stdout, stderr } = await run(options);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
    expect(stderr).toContain(remedy);
  });

  it('refuses a secret that is short enough to guess', async () => {
    expect((await run({ deIdentified: true }, 'short')).exitCode).toBe(1);
  });
});
