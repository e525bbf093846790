// What the pure folders deny is planted in a small house of its own, and Biome, with the settings of this project, has to
// find it; what only looks alike stays unfound. Without this, a slip in a pattern would turn the lint green on everything.
// Next: biome.jsonc, passed-in.grit.

import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { top } from './tree.ts';

const folder = temporaryFolder();
afterAll(() => folder.remove());

const denied: Readonly<Record<string, string>> = {
  'date-now': 'export const now = Date.now();',
  'date-now-passed': 'export const clock = Date.now;',
  'date-now-unpacked': 'const { now } = Date;\nexport const at = now();',
  'new-date': 'export const today = new Date();',
  'date-called': 'export const today = Date();',
  'luxon-now': "import { DateTime } from 'luxon';\nexport const now = DateTime.now();",
  'luxon-local': "import { DateTime } from 'luxon';\nexport const now = DateTime.local();",
  'luxon-utc': "import { DateTime } from 'luxon';\nexport const now = DateTime.utc();",
  'math-random': 'export const chance = Math.random();',
  'around-us': 'export const clock = globalThis.Date;',
  console: "console.log('x');",
  crypto: 'export const id = crypto.randomUUID();',
  fetch: 'export const ask = fetch;',
  performance: 'export const now = performance.now();',
  process: 'export const zone = process.env;',
  microtask: 'export const later = queueMicrotask;',
  immediate: 'export const later = setImmediate;',
  interval: 'export const later = setInterval;',
  timeout: 'export const later = setTimeout;',
};

const harmless: Readonly<Record<string, string>> = {
  'date-of': 'export const day = (at: number) => new Date(at);',
  'date-utc': 'export const day = Date.UTC(2026, 0, 1);',
  'luxon-of': "import { DateTime } from 'luxon';\nexport const day = (at: number) => DateTime.fromMillis(at);",
  'math-round': 'export const whole = Math.round(1.5);',
  'own-process': 'export const run = (process: string) => process;',
};

const pureFolders = ['clinical', 'messages', 'dialog', 'on-call', 'planning'];

let findings: readonly string[];

beforeAll(() => {
  cpSync(join(top, 'tests/architecture'), join(folder.path, 'tests/architecture'), { recursive: true });
  const plant = (house: string, name: string, text: string) => {
    mkdirSync(join(folder.path, 'src', house), { recursive: true });
    writeFileSync(join(folder.path, 'src', house, `${name}.ts`), `${text}\n`);
  };
  for (const house of pureFolders) {
    for (const [name, text] of Object.entries({ ...denied, ...harmless })) plant(house, name, text);
  }
  for (const [name, text] of Object.entries(denied)) plant('cli', name, text);
  plant('register', 'promise', 'export async function save(): Promise<void> {}');
  plant('register', 'floating', "import { save } from './promise.ts';\nsave();");
  findings = lint();
});

/** The files in which Biome finds an error. */
function lint(): string[] {
  const args = ['lint', '--config-path=tests/architecture', '--diagnostic-level=error', '--max-diagnostics=none', '--reporter=json', 'src'];
  const biome = join(top, 'node_modules/@biomejs/biome/bin/biome');
  let report: string;
  try {
    report = execFileSync(process.execPath, [biome, ...args], { cwd: folder.path, encoding: 'utf8', stdio: 'pipe' });
  } catch (failed) {
    report = (failed as { stdout: string }).stdout;
  }
  const { diagnostics } = JSON.parse(report) as { diagnostics: { location: { path: string | { file: string } } }[] };
  return diagnostics.map(({ location: { path } }) => (typeof path === 'string' ? path : path.file));
}

it.each(pureFolders)('%s takes time, chance and the world as arguments', (house) => {
  const found = new Set(findings.filter((path) => path.startsWith(`src/${house}/`)));
  expect([...found].sort()).toEqual(
    Object.keys(denied)
      .map((name) => `src/${house}/${name}.ts`)
      .sort(),
  );
});

it('lets the command look at the clock', () => {
  expect(findings.filter((path) => path.startsWith('src/cli/'))).toEqual([]);
});

it('leaves no promise unawaited, also one that another file made', () => {
  expect(findings.filter((path) => path.startsWith('src/register/'))).toEqual(['src/register/floating.ts']);
});
