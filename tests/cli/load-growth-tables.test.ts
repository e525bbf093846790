import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { loadGrowthTables } from '../../src/cli/load-growth-tables.ts';

const published = new URL('../../flows/reference', import.meta.url).pathname;
const folder = mkdtempSync(join(tmpdir(), 'growth-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('loading the growth tables', () => {
  it('gives them from the folder that is shipped', async () => {
    expect((await loadGrowthTables(published)).newborn.weight.girl.get(280)).toBeDefined();
  });

  it('stops with the file, the line and the mend when a row is bad', async () => {
    cpSync(published, folder, { recursive: true });
    writeFileSync(join(folder, 'ranges.csv'), 'table,unit,first,last\nnewborn,ga_days,231,many\n');
    const loading = loadGrowthTables(folder);
    await expect(loading).rejects.toThrow('ranges.csv:2:21  error  growth-table/not-a-number');
    await expect(loading).rejects.toThrow('fix  Write a whole number');
  });

  it('stops and names the tables that are not there', async () => {
    await expect(loadGrowthTables(join(folder, 'nowhere'))).rejects.toThrow('growth-table/missing-file');
  });
});
