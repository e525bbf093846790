// `pipit simulate` from files: what it prints is what it computed, from the walks, the protocol and the two files of planning; and what
// it refuses, each time with what to write instead. Next: simulate-page.test.ts.

import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readConfig } from '../../src/cli/config.ts';
import { loadPlanning } from '../../src/cli/load-planning.ts';
import { readShares, type SimulateFlags } from '../../src/cli/plan-flags.ts';
import { plannedContacts } from '../../src/cli/planned-contacts.ts';
import { errorOfShare } from '../../src/cli/planned-walks.ts';
import { bytes, count, percent, shown } from '../../src/cli/shown-numbers.ts';
import { simulate } from '../../src/cli/simulate.ts';
import type { Needs, Plan } from '../../src/planning/plan.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const outcome = readConfig({ PIPIT_ALLOW_DRAFTS: '1' }, process.cwd());
if (outcome.kind === 'refused') throw new Error(outcome.faults.join('\n'));
const { config } = outcome;
const folder = temporaryFolder();
afterAll(() => folder.remove());

const flags: SimulateFlags = {
  ...{ births: 1_500_000, channels: 'sms', desks: 1, walks: 4, seed: 1, secondsPerScreen: 8, secondsPerCall: 180, format: 'text' },
};
async function printed(more: Partial<SimulateFlags>, places: Partial<typeof config> = {}): Promise<string[]> {
  const lines: string[] = [];
  expect(await simulate({ ...config, ...places }, { ...flags, ...more }, (line) => lines.push(line))).toBe(0);
  return lines;
}
interface Printed {
  readonly version: string;
  readonly given: Needs;
  readonly walked: { readonly uses: readonly unknown[]; readonly walks: number };
  readonly plan: Plan;
  readonly clocks: Readonly<Record<'pooled' | 'divided' | 'inTurn', { readonly within: { readonly share: number } } | null>>;
}
async function json(more: Partial<SimulateFlags>): Promise<Printed> {
  return JSON.parse((await printed({ ...more, format: 'json' })).join('\n')) as Printed;
}

describe('a country', () => {
  it('is planned from what was given, and what was not comes from the files', async () => {
    const prices = { priceIn: 0.01, priceOut: 0.02, priceCall: 0.05 };
    const more = { languages: 'en:0.6,hi:0.4', channels: 'sms:0.75,ussd:0.25', peak: 4, busy: 15, desks: 40, ...prices };
    const { version, given, walked, plan, clocks } = await json(more);
    expect(version).toMatch(/^[0-9a-f]{16}$/);
    expect(given).toMatchObject({ birthsPerYear: 1_500_000, contactsPerBaby: 4, peakFactor: 4, busyMinutes: 15, desks: 40, level: 0.95 });
    expect(given.takenWithinMinutes).toBe(5);
    expect(given.replyDays).toBe(3);
    expect([walked.uses.length, walked.walks]).toEqual([4, 16]);
    expect(plan.turnsPerSecondAtPeak).toBeCloseTo(4 * plan.turnsPerSecond, 9);
    expect(plan.costPerBaby).toBeGreaterThan(0);
    expect(plan.divided.nurses).toBe(40 * plan.divided.nursesEach);
    for (const within of [plan.pooled.within, plan.divided.within]) expect(within).toBeGreaterThanOrEqual(0.95);
    expect(clocks.divided?.within.share).toBeCloseTo(plan.divided.within, 1);
  });

  it('is printed with how each figure was computed, and is the same again', async () => {
    const lines = await printed({});
    expect(await printed({})).toEqual(lines);
    const line = (name: string): string => lines.find((one) => one.startsWith(`${name} `)) ?? '';
    expect(line('births a year')).toMatch(/ 1,500,000 +given$/);
    expect(line('examinations of a baby')).toContain('the schedule four-contacts');
    expect(line('peak factor')).toContain('assumption, invented');
    expect(line('turns a second, peak')).toMatch(/mean x peak factor$/);
    expect(line('cost of a baby')).toContain('not known');
    expect(line('cost of a baby')).toContain('give --price-in');
    const [given, comes] = [lines.indexOf('Given:'), lines.indexOf('Comes to:')];
    const unexplained = lines.filter((one, at) => at !== given && at !== comes && one !== '' && !/ {2,}\S.* {2,}\S/.test(one));
    // A value that fills its column stands one space before how it was computed.
    expect(unexplained.filter((one) => !/^.{38} .{20,} \S/.test(one))).toEqual([]);
  });

  it('that is twice as large needs twice the texts, and fewer than twice the nurses of one desk', async () => {
    const [one, two] = [await json({}), await json({ births: 3_000_000 })];
    expect(two.plan.textsInPerBaby).toBe(one.plan.textsInPerBaby);
    expect(two.plan.turnsPerSecond).toBeCloseTo(2 * one.plan.turnsPerSecond, 9);
    expect(two.plan.pooled.nurses).toBeLessThan(2 * one.plan.pooled.nurses);
  });

  it('in which nothing is ever urgent has somebody on call, and no clock to run', async () => {
    const file = join(folder.path, 'never.yaml');
    writeFileSync(file, 'otherwise: 0\n');
    const { plan, clocks } = await json({ prevalence: file });
    expect([plan.pooled.nurses, plan.alertsPerYear]).toEqual([1, 0]);
    // A few walks that found nothing urgent do not say that nothing is.
    expect(plan.pooled.nursesIfMore).toBeGreaterThan(1);
    expect(clocks).toEqual({ pooled: null, divided: null, inTurn: null, atOnce: null });
  });
});

it.each<readonly [string, Partial<SimulateFlags>, RegExp]>([
  ['births that are no number', { births: Number.NaN }, /--births must be from 1 .* such as --births 1500000/],
  ['no births', { births: 0 }, /--births must be from 1/],
  ['a peak below the mean', { peak: 0.5 }, /--peak must be from 1 .* such as --peak 3/],
  ['a level of all', { level: 1 }, /--level .* such as --level 0\.95/],
  ['a time below nothing', { within: -1 }, /--within .* minutes/],
  ['a nurse who is never busy', { busy: 0 }, /--busy .* minutes/],
  ['no contacts', { contacts: 0 }, /--contacts .* such as --contacts 4/],
  ['half a desk', { desks: 1.5 }, /--desks must be a whole number from 1/],
  ['more desks than births', { births: 10, desks: 11 }, /--desks must be a whole number from 1 to 10\./],
  ['no walks', { walks: 0 }, /--walks must be a whole number/],
  ['a seed that is no number', { seed: Number.NaN }, /--seed must be a whole number, 0 or more/],
  ['a price below nothing', { priceOut: -1 }, /--price-out .* an amount/],
  ['more than can be counted', { births: 1e9, contacts: 100, peak: 100, busy: 10_000 }, /would be busy at once\. Give fewer --births/],
  ['another form', { format: 'csv' }, /No format "csv"\. Write --format text or --format json\./],
  ['a language that is not there', { languages: 'xx' }, /--languages names "xx"\. Give one of: en, /],
])('%s: refused', async (_, more, words) => {
  await expect(printed(more)).rejects.toThrow(words);
});

describe('shares', () => {
  const known = ['en', 'hi', 'fr'];
  it('are read with their names, and one alone is all', () => {
    expect([...readShares('languages', 'en:0.6, hi:0.4', known)]).toEqual([
      ['en', 0.6],
      ['hi', 0.4],
    ]);
    expect([...readShares('languages', 'fr', known)]).toEqual([['fr', 1]]);
  });

  it.each([
    ['en:0.6,hi:0.3', /add up to 0\.9\. Make them add up to 1/],
    ['en:0.5,en:0.5', /names "en" twice/],
    ['en,hi', /gives "en"\. Write a share above 0/],
    ['en:', /gives "en:"\. Write a share/],
    ['en:x,hi:1', /gives "en:x"\. Write a share above 0 and up to 1, such as en:0\.6/],
    ['en:1:2', /gives "en:1:2"/],
    ['en:-1,hi:2', /gives "en:-1"/],
    ['', /names ""\. Give one of: en, hi, fr\./],
    ['__proto__:1', /names "__proto__"/],
  ])('%s is refused', (written, words) => {
    expect(() => readShares('languages', written, known)).toThrow(words);
  });
});

describe('the files of planning', () => {
  const copied = join(folder.path, 'flows');
  const file = join(copied, 'planning', 'assumptions.yaml');
  const text = readFileSync(join(config.flows, 'planning', 'assumptions.yaml'), 'utf8');
  cpSync(join(config.flows, 'planning'), join(copied, 'planning'), { recursive: true });

  it.each([
    ['a factor below 1', text.replace('value: 3', 'value: 0.3'), /peak-factor\.value/],
    ['a figure without its source', text.replace(/ {2}source: "assumption, invented: as if.*\n/, ''), /peak-factor\.source/],
    ['a figure that is not known', `${text}\nmoon: { value: 1, source: x }\n`, /moon/],
  ])('%s is refused with what to write', (_, edited, words) => {
    expect(edited).not.toBe(text);
    writeFileSync(file, edited);
    expect(() => loadPlanning(copied)).toThrow(/Give each figure as \{ value: NUMBER, source: "\.\.\." \}/);
    expect(() => loadPlanning(copied)).toThrow(words);
  });

  it('that are not there are said to be so', () => {
    rmSync(file);
    expect(() => loadPlanning(copied)).toThrow(/is not there\. Copy the folder flows\/planning/);
  });

  it('say of each assumption that it is one', () => {
    for (const { source } of Object.values(loadPlanning(config.flows).assumptions)) expect(source).toMatch(/^assumption, invented: /);
  });

  it('name for each measured figure the command that measures it, or the figure it belongs to', () => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };
    const { 'on-cores': machine, ...figures } = loadPlanning(config.flows).measured;
    expect(machine.how).toContain('of that machine');
    for (const { how } of Object.values(figures)) expect(Object.keys(scripts)).toContain(/^npm run (\w+)/.exec(how)?.[1]);
  });

  it('give the turns a second that DEVELOPERS.md gives', () => {
    const { 'turns-per-second': turns } = loadPlanning(config.flows).measured;
    expect(readFileSync('DEVELOPERS.md', 'utf8')).toContain(`| webhook, turns/s | ${turns.value} |`);
  });
});

it('the protocol plans four examinations for every baby: the first day and three contacts', () => {
  expect(plannedContacts(config.flows)).toEqual({ schedule: 'four-contacts', count: 4 });
});

it('the error of a share is the usual one of many walks, and not nothing where none was found', () => {
  expect(errorOfShare(1900, 10_000)).toBeCloseTo(Math.sqrt((0.19 * 0.81) / 10_000), 5);
  expect(errorOfShare(0, 4)).toBeCloseTo(Math.sqrt((0.25 * 0.75) / 8), 12);
  expect(errorOfShare(4, 4)).toBeCloseTo(errorOfShare(0, 4), 12);
});

it('numbers are written with no more figures than they are known to', () => {
  expect([count(11_456), shown(7_471_833_600), shown(44.3812), shown(0.057_219)]).toEqual(['11,456', '7,472,000,000', '44.38', '0.05722']);
  expect([percent(0.19), percent(0.9541), percent(0.991), percent(0.0002), percent(1)]).toEqual([
    ...['19 %', '95.4 %', '99.10 %', '0.02 %', '100 %'],
  ]);
  expect([bytes(0), bytes(999), bytes(42_400_000_000), bytes(4.94e12)]).toEqual(['0 bytes', '999 bytes', '42.4 GB', '4.94 TB']);
});
