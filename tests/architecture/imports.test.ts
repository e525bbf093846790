// The import rules, run on the real tree and on a small house in which every rule is broken once.
// A cruise that finds no files is green on anything, so the files are counted. Next: imports.cjs.

import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { filesUnder, textOf, top } from './tree.ts';

interface Cruise {
  readonly modules: readonly { readonly source: string; readonly dependencies: readonly { readonly resolved: string }[] }[];
  readonly summary: {
    readonly violations: readonly { readonly from: string; readonly to: string; readonly rule: { readonly name: string } }[];
  };
}

function cruise(folder: string): Cruise {
  const depcruise = join(top, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
  const args = ['--config', 'tests/architecture/imports.cjs', '--output-type', 'json', 'src'];
  const maxBuffer = 64 * 1024 * 1024;
  return JSON.parse(execFileSync(process.execPath, [depcruise, ...args], { cwd: folder, encoding: 'utf8', maxBuffer })) as Cruise;
}

const { forbidden } = createRequire(import.meta.url)('./imports.cjs') as { forbidden: readonly { readonly name: string }[] };

describe('the tree', () => {
  let tree: Cruise;
  beforeAll(() => {
    tree = cruise(top);
  });

  it('is cruised whole', () => {
    const cruised = tree.modules.map(({ source }) => source).filter((source) => source.startsWith('src/'));
    expect(cruised.sort()).toEqual(filesUnder('src').filter((path) => /\.(tsx?|mjs)$/.test(path)));
  });

  it('breaks no rule', () => {
    expect(tree.summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`)).toEqual([]);
  });

  it('uses every package it brings', () => {
    const { dependencies } = JSON.parse(textOf('package.json')) as { dependencies: Record<string, string> };
    const used = tree.modules.flatMap((module) => module.dependencies.map(({ resolved }) => resolved));
    const idle = Object.keys(dependencies).filter((name) => !used.some((path) => path.startsWith(`node_modules/${name}/`)));
    expect(idle).toEqual([]);
  });
});

/** For each rule: the file that breaks it, and its text. */
const planted: readonly (readonly [rule: string, file: string, text: string])[] = [
  ['clinical-imports', 'clinical/speaks', "import '../messages/word.ts';"],
  ['messages-imports', 'messages/judges', "import '../clinical/finding.ts';"],
  ['dialog-imports', 'dialog/speaks', "import type { Word } from '../messages/word.ts';\nexport const word: Word = 'a';"],
  ['on-call-imports', 'on-call/asks', "import '../dialog/turn.ts';"],
  ['authoring-imports', 'authoring/listens', "import '../sessions/keys.ts';"],
  ['authoring-imports-types', 'authoring/runs', "import { port } from '../conversation/ports.ts';\nexport const ran = port;"],
  ['conversation-imports', 'conversation/stores', "import '../register/rows.ts';"],
  ['planning-imports', 'planning/walks', "import '../conversation/ports.ts';"],
  ['economy-imports', 'economy/counts', "import '../register/rows.ts';"],
  ['sessions-imports', 'sessions/stores', "import '../register/rows.ts';"],
  ['register-imports', 'register/answers', "import '../channels/door.ts';"],
  ['channels-imports', 'channels/stores', "import '../sessions/keys.ts';"],
  ['console-imports', 'console/stores', "import '../register/rows.ts';"],
  ['new-folder', 'drawer/thing', "import '../clinical/finding.ts';"],
  ['cli-is-the-top', 'console/commands', "import '../cli/wire.ts';"],
  ['pure-folders-touch-nothing', 'clinical/reads', "import 'node:fs';"],
  ['pure-folders-touch-nothing', 'dialog/reads', "import { z } from 'zod';\nexport const text = z.string();"],
  ['authoring-is-given-text', 'authoring/reads', "import 'node:fs/promises';"],
  ['ioredis-stays-home', 'channels/remembers', "import { Redis } from 'ioredis';\nexport const client = Redis;"],
  ['pg-stays-home', 'conversation/selects', "import pg from 'pg';\nexport const pool = pg.Pool;"],
  ['express-stays-home', 'register/serves', "import express from 'express';\nexport const app = express;"],
  ['twilio-stays-home', 'conversation/signs', "import 'twilio';"],
  ['no-circle', 'clinical/egg', "import './hen.ts';"],
  ['no-orphan', 'clinical/alone', 'export const alone = true;'],
  ['reached-from-the-command', 'clinical/alone', 'export const alone = true;'],
  ['no-test-tools', 'register/guesses', "import fc from 'fast-check';\nexport const guess = fc;"],
  ['no-tests-in-src', 'register/tries', "import '../../tests/rows.ts';"],
  ['declared-packages-only', 'register/borrows', "import { Parser } from 'acorn';\nexport const parser = Parser;"],
  ['resolves', 'register/misses', "import './nowhere.ts';"],
];

/** What the planted files lean on; breaks nothing. */
const sound: Readonly<Record<string, string>> = {
  'clinical/finding': 'export const finding = 1;',
  'clinical/hen': "import './egg.ts';",
  'messages/word': "export type Word = 'a';\nexport const word: Word = 'a';",
  'dialog/turn': "import '../clinical/finding.ts';",
  'on-call/rota': "import '../clinical/finding.ts';",
  'conversation/ports': "import '../dialog/turn.ts';\nexport type Port = 1;\nexport const port: Port = 1;",
  'authoring/roster': "import type { Port } from '../conversation/ports.ts';\nimport '../messages/word.ts';\nexport const port: Port = 1;",
  'register/rows': "import '../conversation/ports.ts';\nimport 'node:fs';\nimport pg from 'pg';\nexport const pool = pg.Pool;",
  'sessions/keys': "import '../conversation/ports.ts';",
  'channels/door': "import '../conversation/ports.ts';",
  'cli/wire':
    "import '../register/rows.ts';\nimport '../sessions/keys.ts';\nimport '../channels/door.ts';\nimport '../authoring/roster.ts';",
};

describe('a house where every rule is broken once', () => {
  const folder = temporaryFolder();
  let broken: ReadonlySet<string>;
  afterAll(() => folder.remove());

  beforeAll(() => {
    const write = (path: string, text: string) => {
      mkdirSync(dirname(join(folder.path, path)), { recursive: true });
      writeFileSync(join(folder.path, path), `${text}\n`);
    };
    for (const path of ['package.json', 'tsconfig.json', 'tests/architecture/imports.cjs'])
      cpSync(join(top, path), join(folder.path, path));
    symlinkSync(join(top, 'node_modules'), join(folder.path, 'node_modules'));
    write('tests/rows.ts', 'export const rows = [];');
    for (const [path, text] of Object.entries(sound)) write(`src/${path}.ts`, text);
    for (const [, path, text] of planted) write(`src/${path}.ts`, text);
    const reached = [...Object.keys(sound), ...planted.map(([, path]) => path)].filter((path) => path !== 'clinical/alone');
    write('src/cli/pipit.ts', reached.map((path) => `import '../${path}.ts';`).join('\n'));
    broken = new Set(cruise(folder.path).summary.violations.map(({ rule, from }) => `${rule.name}: ${from}`));
  });

  it.each(planted)('%s is broken by src/%s.ts', (rule, path) => {
    expect(broken).toContain(`${rule}: src/${path}.ts`);
  });

  it('breaks a rule nowhere else', () => {
    const expected = new Set(planted.map(([rule, path]) => `${rule}: src/${path}.ts`));
    expect([...broken].filter((one) => !expected.has(one))).toEqual([]);
  });

  it('has a break for every rule', () => {
    const rules = new Set(planted.map(([rule]) => rule));
    expect(forbidden.map(({ name }) => name).filter((name) => !rules.has(name))).toEqual([]);
  });
});
