// The bench takes the program as it is built, and everything else as it stands.

import { expect, it } from 'vitest';
import { resolve } from './as-built-names.ts';
import { root } from './bench.ts';

const inside = (path: string): string => new URL(path, `file://${root}`).href;
const resolved = async (url: string): Promise<string> =>
  (await resolve('anything', { conditions: [], importAssertions: {}, importAttributes: {}, parentURL: undefined }, async () => ({ url })))
    .url;

it.each([
  ['src/dialog/turn.ts', 'dist/dialog/turn.js'],
  ['src/dialog/turn.ts?namespace=1', 'dist/dialog/turn.js?namespace=1'],
  ['src/console/page.tsx', 'dist/console/page.js'],
  ['tests/bench/turns.ts', 'tests/bench/turns.ts'],
  ['node_modules/zod/src/index.ts', 'node_modules/zod/src/index.ts'],
])('takes %s from %s', async (asked, taken) => {
  expect(await resolved(inside(asked))).toBe(inside(taken));
});
