// `pipit report` on an empty register, and what it refuses. What the figures are: tests/register/report.test.ts.

import { expect, it } from 'vitest';
import { readConfig } from '../../src/cli/config.ts';
import { report } from '../../src/cli/report.ts';

const outcome = readConfig({ PIPIT_DATA: 'memory' }, process.cwd());
if (outcome.kind === 'refused') throw new Error(outcome.faults.join('\n'));
const { config } = outcome;
const now = Date.parse('2026-11-25T12:00:00Z');

async function printed(options: Partial<Parameters<typeof report>[1]>): Promise<string> {
  let text = '';
  const code = await report(config, { format: 'text', notDelivered: false, ...options }, now, (more) => {
    text += more;
  });
  expect(code).toBe(0);
  return text;
}

it.each([false, true])('says that there was nothing, rather than nothing at all (texts that reached nobody: %s)', async (notDelivered) => {
  expect(await printed({ notDelivered })).toBe('Nothing in this period.\n');
});

it('names its period in JSON', async () => {
  expect(JSON.parse(await printed({ format: 'json' }))).toEqual({ period: { from: '2026-11-02', until: '2026-11-29' }, figures: [] });
});

it('has a line of headings as CSV', async () => {
  expect(await printed({ format: 'csv' })).toBe('\ufefffacility,week,figure,value\r\n');
});

it.each([
  ['a day that is none', { from: '2026-02-30' }, /--from and --until must be days such as/],
  ['a period that ends before it begins', { from: '2026-03-02', until: '2026-03-01' }, /the first one not after the last/],
  ['a format that is none', { format: 'xml' }, /"xml" is no format\. Give one of: text, csv, json/],
  ['a facility that is not on the roster', { facility: 'nowhere' }, /The roster has no facility "nowhere"/],
] as const)('refuses %s', async (_, options, words) => {
  await expect(printed(options)).rejects.toThrow(words);
});
