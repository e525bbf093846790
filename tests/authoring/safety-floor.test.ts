// The safety floor over the shipped files: they hold it, and an edit that lowers an urgency or drops a rule does not.

import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { loadAll } from '../../src/cli/load-published.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const root = new URL('../..', import.meta.url).pathname;
const folder = temporaryFolder();
afterAll(() => folder.remove());

async function codesAfter(file: string, from: string, to: string): Promise<string[]> {
  const flows = join(folder.path, 'flows');
  cpSync(join(root, 'flows'), flows, { recursive: true });
  const path = join(flows, file);
  const text = readFileSync(path, 'utf8');
  expect(text).toContain(from);
  writeFileSync(path, text.replace(from, to));
  const { diagnostics, published } = await loadAll({ flows, locales: join(root, 'locales'), PIPIT_ALLOW_DRAFTS: true });
  expect(published).toBeNull();
  return [...new Set(diagnostics.filter((one) => one.severity === 'error').map((one) => one.code))];
}

describe('the safety floor', () => {
  it('holds for the files as shipped', async () => {
    const { diagnostics, published } = await loadAll({
      flows: join(root, 'flows'),
      locales: join(root, 'locales'),
      PIPIT_ALLOW_DRAFTS: true,
    });
    expect(diagnostics.filter((one) => one.severity === 'error')).toEqual([]);
    expect(published).not.toBeNull();
  });

  it('stops an edit that makes a cold baby less urgent', async () => {
    const codes = await codesAfter(
      'protocol/classifications/20-temperature.yaml',
      '{ urgent: temperature is low, rows',
      '{ treat: temperature is low, rows',
    );
    expect(codes).toEqual(['floor/less-urgent']);
  });

  it('stops an edit that moves the limit of fever up', async () => {
    const codes = await codesAfter('protocol/limits.yaml', '38.0', '38.5');
    expect(codes.some((code) => code.startsWith('floor/'))).toBe(true);
  });

  it('stops an edit that drops grunting from its rule', async () => {
    const codes = await codesAfter('protocol/classifications/30-breathing-and-heart.yaml', '{ urgent: grunting', '{ urgent: jittery');
    expect(codes).toContain('floor/not-classified');
  });

  it('reports a case that cannot be read where it stands', async () => {
    const codes = await codesAfter(
      'reference-cases/classifications.yaml',
      'findings: { chest-indrawing: severe }',
      'findings: { chest-indrawing: sever }',
    );
    expect(codes).toEqual(['floor/not-readable']);
  });
});
