// The coordinator's guide in the README, done as it stands there: every copy, edit and command of it, in a folder of its own, and what
// the guide says will come back does. A step that does nothing may name no file and no command: it would not be tried.

import { spawnSync } from 'node:child_process';
import { cpSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Built, buildCommand } from '../support/end-to-end-build.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const [, guide = ''] = /### Edits, step by step\n(.*?)\nWhat `check` refuses/s.exec(readFileSync(join(root, 'README.md'), 'utf8')) ?? [];

interface Step {
  readonly text: string;
  /** Lines to be written into a file. */
  readonly block: readonly string[];
}

interface Recipe {
  readonly title: string;
  readonly lines: number;
  readonly steps: readonly Step[];
}

const recipes: readonly Recipe[] = [...guide.matchAll(/^\*\*(.+?)\*\*(.*?)(?=^\*\*|$(?![\s\S]))/gms)].map(([, title = '', body = '']) => ({
  title,
  // The fences around what is to be written are no lines of it.
  lines: body.split('\n').filter((line) => !/^\s*(```)?$/.test(line)).length,
  steps: body
    .split(/^\d+\. /m)
    .slice(1)
    .map(stepIn),
}));

function stepIn(written: string): Step {
  const [text = '', block] = written.split(/^ *```$/m);
  const lines = block === undefined ? [] : block.split('\n').filter((line) => line.trim() !== '');
  const margin = /^ */.exec(lines[0] ?? '')?.[0].length ?? 0;
  return { text: text.replace(/\s+/g, ' ').trim(), block: lines.map((line) => line.slice(margin)) };
}

const folder = temporaryFolder();
const variables = new Map<string, string>();
let built: Built;

beforeAll(() => {
  built = buildCommand();
  for (const own of ['flows', 'locales']) symlinkSync(join(root, own), join(folder.path, own));
});
afterAll(() => {
  built?.remove();
  folder.remove();
});

/** The exit code, and all that was printed. */
function run(command: string): { readonly code: number | null; readonly said: string } {
  const words = [...command.replace(/\$(\w+)/g, (_all, name: string) => variables.get(name) ?? '').matchAll(/"([^"]*)"|(\S+)/g)];
  const [npx, pipit, ...given] = words.map(([, quoted, plain]) => quoted ?? plain ?? '');
  expect([npx, pipit]).toEqual(['npx', 'pipit']);
  const env = { ...process.env, PIPIT_DATA: join(folder.path, 'data') };
  const { status, stdout, stderr } = spawnSync(process.execPath, [built.command, ...given], { cwd: folder.path, env, encoding: 'utf8' });
  return { code: status, said: stdout + stderr };
}

function edit(file: string, change: (text: string) => string): void {
  const path = join(folder.path, file);
  writeFileSync(path, change(readFileSync(path, 'utf8')));
}

function written(file: string, now: string, before: string): void {
  edit(file, (text) => {
    expect(text.split(before), `"${before}" stands once in ${file}`).toHaveLength(2);
    return text.replace(before, now);
  });
}

/** Below a line that ends in a colon, further in. */
function insert(file: string, where: string, anchor: string, block: readonly string[]): void {
  edit(file, (text) => {
    const lines = text.split('\n');
    const at = lines.findIndex((line) => line.trim() === anchor);
    expect(at, `"${anchor}" is a line of ${file}`).toBeGreaterThan(-1);
    const margin = `${/^ */.exec(lines[at] ?? '')?.[0]}${where === 'below' && anchor.endsWith(':') ? '  ' : ''}`;
    lines.splice(where === 'below' ? at + 1 : at, 0, ...block.map((line) => margin + line));
    return lines.join('\n');
  });
}

/** True: something was done. */
function follow({ text, block }: Step): boolean {
  const [, place = '', anchor = ''] = /write (below|above) `([^`]+)`/.exec(text) ?? [];
  const [, file = ''] = /[Ii]n `(ours\/[^`]+)`/.exec(text) ?? [];
  const copies = /^Copy /.test(text) ? [...text.matchAll(/`([^`]+)` to `([^`]+)`/g)] : [];
  const edits = [...text.matchAll(/`([^`]+)` for `([^`]+)`/g)];
  const exported = /`export (\w+)="([^"]+)"`/.exec(text);
  const command = /Run `(npx [^`]+)`: it (says|refuses with) `([^`]+)`/.exec(text);
  for (const [, from = '', to = ''] of copies)
    cpSync(join(folder.path, from), join(folder.path, to), { recursive: true, dereference: true });
  for (const [, now = '', before = ''] of edits) written(file, now, before);
  if (anchor !== '') insert(file, place, anchor, block);
  if (exported !== null) variables.set(exported[1] ?? '', exported[2] ?? '');
  if (command !== null) {
    const { code, said } = run(command[1] ?? '');
    expect(said).toContain(command[3]);
    expect(code).toBe(command[2] === 'says' ? 0 : 1);
  }
  return copies.length + edits.length > 0 || anchor !== '' || exported !== null || command !== null;
}

describe('the guide', () => {
  it('tells of all that a coordinator does, each in less than ten lines', () => {
    expect(recipes.map(({ title }) => title)).toEqual([
      'Before the first edit',
      'Change a wording',
      'Add a question',
      'Add a language',
      'Move a threshold',
      'Move any other threshold',
      'Publish, and undo',
    ]);
    expect(recipes.filter(({ lines }) => lines >= 10).map(({ title }) => title)).toEqual([]);
  });

  describe.each(recipes.map((recipe) => [recipe.title, recipe] as const))('"%s"', (_title, { steps }) => {
    it.each(steps.map((step) => [step.text, step] as const))('%s', (text, step) => {
      if (!follow(step)) expect(text).not.toMatch(/npx|ours\//);
    });
  });

  it('changes what is in force, and brings back what was', () => {
    const said = run('npx pipit publish --list').said;
    expect(said).toMatch(/3.*Rose[\s\S]*2.*Rose/);
  });
});
