// `pipit schema`: schemas on the screen and in a folder, and what may be written at a place of a file.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { schemaNamed, schemaNames } from '../../src/authoring/schemas/schema-for.ts';
import { schema } from '../../src/cli/schema.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const folder = temporaryFolder();
afterAll(() => folder.remove());

function run(file?: string, path: readonly string[] = [], into?: string): { code: number; lines: string[] } {
  const lines: string[] = [];
  const code = schema(file, path, into, (line) => lines.push(line));
  return { code, lines };
}

it('prints every schema by its name', () => {
  const { code, lines } = run();
  expect(code).toBe(0);
  expect(JSON.parse(lines.join('\n'))).toEqual(Object.fromEntries(schemaNames.map((name) => [name, schemaNamed(name)])));
});

it('writes a file for each kind, and says how an editor is bound to it', () => {
  const into = join(folder.path, 'not', 'there', 'yet');
  const { code, lines } = run(undefined, [], into);
  expect(code).toBe(0);
  expect(readdirSync(into).sort()).toEqual(schemaNames.map((name) => `${name}.schema.json`).sort());
  expect(JSON.parse(readFileSync(join(into, 'needs.schema.json'), 'utf8'))).toEqual(schemaNamed('needs'));
  expect(lines).toHaveLength(3);
  expect(lines.join('\n')).toContain(`$schema=${into}/flow.schema.json`);
});

it('says what may be written at a place of a file', () => {
  expect(run('flows/protocol/needs.yaml', ['needs', '0'])).toEqual({
    code: 0,
    lines: ['finding (needed)  The finding that is still missing.', 'when (needed)  While this holds, the baby is not yet well.'],
  });
  expect(run('flows/recheck.yaml', ['steps', '0', 'twins']).lines).toEqual([
    'share (value)  share: the answer holds for the next twin too.',
  ]);
  expect(run('flows/recheck.yaml', ['steps', '0', 'not-known']).lines).toEqual(['<finding> (key)']);
});

it.each([
  ['a file without a schema', 'flows/demo/people.csv', [], 'flows/demo/people.csv'],
  ['a place that there is not', 'flows/protocol/needs.yaml', ['needs', '0', 'why'], 'needs 0 why'],
])('says what to write in place of %s', (_what, file, path, named) => {
  const { code, lines } = run(file, path);
  expect(code).toBe(1);
  expect(lines).toHaveLength(1);
  expect(lines[0]).toContain(`"${named}"`);
});
