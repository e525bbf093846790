// "Every birth on earth" in DEVELOPERS.md is what the command prints today, line for line, and its words name no figure but those.

import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const document = readFileSync('DEVELOPERS.md', 'utf8');
const [, page = ''] = /\n## Every birth on earth\n([\s\S]*?)\n## /.exec(document) ?? [];
const [words = '', block = ''] = page.split('```');
const [, command = '', ...lines] = block.split('\n');
const rest = page.split('```').slice(2).join('');

/** Years and versions of sources, which no command prints. */
const ofSources = ['2024'];

it('is what the command prints; if not, put its output there anew', { timeout: 240_000 }, () => {
  const [npx, pipit, ...given] = [...command.replace('$ ', '').matchAll(/"([^"]*)"|(\S+)/g)].map(
    ([, quoted, plain]) => quoted ?? plain ?? '',
  );
  expect([npx, pipit, given[0]]).toEqual(['npx', 'pipit', 'simulate']);
  const printed = execFileSync(process.execPath, ['--import', 'tsx', 'src/cli/pipit.ts', ...given], { encoding: 'utf8' });
  expect(lines.join('\n').trimEnd()).toBe(printed.trimEnd());
});

it('names in its words no figure that is not printed', () => {
  const figures = (text: string): string[] => text.match(/\d[\d,.]*\d|\d/g) ?? [];
  const known = new Set([...figures(block), ...ofSources]);
  expect(figures(words + rest).filter((figure) => !known.has(figure))).toEqual([]);
  const cores = /^cores +(\S+) /m.exec(block)?.[1];
  expect(rest).toContain(`Every birth on earth comes to ${cores} cores`);
});
