// What comes from others: named by one exact version each, under a licence that lets us use it, and needing nothing to be run when it is
// installed. What nobody uses is not brought, and what nobody calls is not kept. Next: supply.ts, unused.json.

import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { installedPackages, mayBeUsed } from './supply.ts';
import { textOf, top } from './tree.ts';

const { dependencies, devDependencies, allowScripts, scripts } = JSON.parse(textOf('package.json')) as Record<
  'dependencies' | 'devDependencies' | 'allowScripts' | 'scripts',
  Record<string, string>
>;
const installed = installedPackages();

it('names each package by one version', () => {
  const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version));
  expect(loose).toEqual([]);
});

it('installs every package that is named, in the version that is named', () => {
  const versions = new Map(installed.map(({ name, version }) => [`${name}@${version}`, true]));
  const missing = Object.entries({ ...dependencies, ...devDependencies }).filter(([name, version]) => !versions.has(`${name}@${version}`));
  expect(missing).toEqual([]);
});

it('uses only packages whose licence allows it', () => {
  expect(installed.length).toBeGreaterThan(300);
  expect(installed.filter((one) => !mayBeUsed(one)).map(({ name, licence }) => `${name}: ${licence ?? 'no licence'}`)).toEqual([]);
});

it.each([
  ['AGPL-3.0-only', false, false],
  ['GPL-3.0-or-later', false, false],
  ['SEE LICENSE IN LICENSE.txt', false, false],
  ['MIT AND GPL-2.0', false, false],
  ['(MIT OR GPL-2.0)', true, true],
  ['MPL-2.0', false, true],
  ['MIT', true, true],
  [undefined, false, false],
])('a package under %s may ship: %s; may build and test: %s', (licence, ships, develops) => {
  expect(mayBeUsed({ licence, ships: true })).toBe(ships);
  expect(mayBeUsed({ licence, ships: false })).toBe(develops);
});

it('lets no package run anything when it is installed but those that are named, which work without it', () => {
  expect(installed.filter(({ runsOnInstall }) => runsOnInstall).map(({ name }) => name)).toEqual(Object.keys(allowScripts));
});

it('installs from the lock file wherever it proves itself', () => {
  expect(scripts.verify).toContain('npm ci --ignore-scripts');
  expect([...Object.values(scripts), textOf('.ci/run')].filter((script) => /npm (i|install)(?! --prefix)\b/.test(script))).toEqual([]);
});

it('keeps no package, file or export that nobody uses', () => {
  const knip = join(top, 'node_modules/knip/bin/knip.js');
  const args = [knip, '--config', 'tests/architecture/unused.json', '--no-progress'];
  const { stdout, status } = spawnSync(process.execPath, args, { cwd: top, encoding: 'utf8' });
  expect(stdout.trim()).toBe('');
  expect(status).toBe(0);
});
