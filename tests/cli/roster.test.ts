// The coordinator's commands, over an embedded register in a folder of its own.

import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type Config, readConfig } from '../../src/cli/config.ts';
import { loadRoster } from '../../src/cli/load-roster.ts';
import { checkRoster, exportRoster, importRoster } from '../../src/cli/roster.ts';
import { rosterOf } from '../../src/conversation/roster.ts';
import { flowsFolder } from '../support/default-protocol.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const folder = temporaryFolder();
afterAll(() => folder.remove());
const demo = join(flowsFolder, 'demo');
const tables = ['facilities', 'people', 'rota', 'leave'] as const;
const now = Date.UTC(2026, 10, 25);

function configFor(data: string): Config {
  const outcome = readConfig({ PIPIT_DATA: join(folder.path, data) }, join(flowsFolder, '..'));
  if (outcome.kind === 'refused') throw new Error(outcome.faults.join('\n'));
  return outcome.config;
}

/** What a command printed, and its exit code. */
async function said(command: (print: (line: string) => void) => number | Promise<number>): Promise<{ code: number; text: string }> {
  const lines: string[] = [];
  const code = await command((line) => lines.push(line));
  return { code, text: lines.join('\n') };
}

/** The demo in a folder of its own, with one table changed. */
function changed(name: string, table: (typeof tables)[number], change: (text: string) => string): string {
  const path = join(folder.path, name);
  cpSync(demo, path, { recursive: true });
  writeFileSync(join(path, `${table}.csv`), change(readFileSync(join(demo, `${table}.csv`), 'utf8')));
  return path;
}

describe('the demo', () => {
  it('has no fault', async () => {
    expect(await said((print) => checkRoster(demo, print))).toEqual({
      code: 0,
      text: '4 facilities, 14 people, 7 shifts: 0 errors, 0 warnings.',
    });
  });

  it('is marked as invented in every line: each number is of one block', () => {
    const { people, facilities, shifts, leave } = loadRoster(demo);
    const numbers = [
      ...people.map((one) => one.phone),
      ...facilities.map((one) => one.nurse),
      ...shifts.map((one) => one.phone),
      ...leave.map((one) => one.phone),
    ];
    expect(numbers.filter((number) => !number.startsWith('+254700555'))).toEqual([]);
    expect(readFileSync(join(demo, 'README.md'), 'utf8')).toContain('+254700555');
  });

  it('has the same nurse first at marula at all times, then those of the hospital, then the coordinator', () => {
    const roster = rosterOf(loadRoster(demo));
    for (let hour = 0; hour < 24 * 60; hour += 1) expect(roster.onCall('marula', now + hour * 3_600_000)[0]?.name).toBe('Nurse Wanjiru');
    const names = (at: string) => roster.onCall('marula', Date.parse(at)).map(({ name }) => name);
    expect(names('2026-11-25T12:00:00+03:00')).toEqual(['Nurse Wanjiru', 'Nurse Njeri', 'Nurse Amina']);
    expect(names('2026-11-25T23:00:00+03:00')).toEqual(['Nurse Wanjiru', 'Nurse Otieno', 'Nurse Amina']);
    expect(roster.coordinators('marula').map(({ name }) => name)).toEqual(['Rose Atieno']);
  });
});

describe('a roster', () => {
  it('is imported, and exported letter for letter', async () => {
    const config = configFor('round-trip');
    const imported = await said((print) => importRoster(config, demo, 'Rose', now, print));
    expect(imported.code).toBe(0);
    expect(imported.text).toContain('Imported: 26 added, 0 changed, 0 removed.');
    const out = join(folder.path, 'exported');
    expect(await said((print) => exportRoster(config, out, print))).toEqual({
      code: 0,
      text: `Import 1 is in ${out}: 4 facilities, 14 people, 7 shifts.`,
    });
    for (const table of tables)
      expect(readFileSync(join(out, `${table}.csv`), 'utf8')).toBe(readFileSync(join(demo, `${table}.csv`), 'utf8'));
    expect(await said((print) => exportRoster(config, out, print))).toMatchObject({ code: 1 });
    expect((await said((print) => importRoster(config, out, 'Rose', now + 1, print))).text).toBe('Nothing has changed.');
  });

  it('with an error changes nothing, and each fault is named with file, line and column', async () => {
    const config = configFor('refused');
    await said((print) => importRoster(config, demo, 'Rose', now, print));
    const bad = changed('bad', 'people', (text) =>
      text.replace('+254700555104', '254700555104').replace('hi,no', 'hi,nope').replace('Juma Hamisi', 'Juma'),
    );
    const refused = await said((print) => importRoster(config, bad, 'Rose', now + 1, print));
    expect(refused.code).toBe(1);
    expect(refused.text).toContain('bad/people.csv:5:1  error  roster/plus-lost');
    expect(refused.text).toMatch(/bad\/people\.csv:5:\d+ {2}error {2}roster\/unknown-word/);
    expect(refused.text).toMatch(/Nothing was imported\.$/);
    expect((await said((print) => importRoster(config, demo, 'Rose', now + 2, print))).text).toBe('Nothing has changed.');
  });

  it('says line by line what an import changed', async () => {
    const config = configFor('changes');
    await said((print) => importRoster(config, demo, 'Rose', now, print));
    const edited = changed('edited', 'people', (text) => text.replace('Juma Hamisi', 'Juma H.').replace(/^.*Sunita.*\n/m, ''));
    const { text } = await said((print) => importRoster(config, edited, 'Rose', now + 1, print));
    expect(text.split('\n')).toEqual([
      'changed person +254700555102',
      'removed person +254700555104',
      'Imported: 0 added, 1 changed, 1 removed. Servers take it over within seconds.',
    ]);
  });

  it('that is not there yet, or a folder without tables, is refused with the remedy', async () => {
    expect(await said((print) => exportRoster(configFor('empty'), join(folder.path, 'nowhere'), print))).toMatchObject({ code: 1 });
    await expect(said((print) => checkRoster(folder.path, print))).rejects.toThrow('facilities.csv is not there');
  });
});
