// A few harmful edits of each kind, of which none slips through `check`; `npm run mutants` tries as many as the night allows.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sourcesIn } from '../../src/cli/load-files.ts';
import { seededRandom } from '../support/end-to-end-seed.ts';
import { drawEdits, kinds } from './edits.ts';
import { type Judge, openJudge } from './judge.ts';

const seed = Number(process.env.SEED ?? 20_261_126);
const ofEach = 2;
const root = new URL('../../', import.meta.url).pathname;
const edits = drawEdits([...sourcesIn(`${root}flows`), ...sourcesIn(`${root}locales`)], seededRandom(seed), ofEach);

let judge: Judge;
beforeAll(async () => {
  judge = await openJudge(seed);
});
afterAll(() => judge?.remove());

describe(`a harmful edit (seed ${seed})`, () => {
  it('of every kind is among them', () => {
    expect(new Set(edits.map(({ kind }) => kind))).toEqual(new Set(kinds.map(({ name }) => name)));
  });

  it.each(edits.map((edit) => ({ ...edit, where: `${edit.file}:${edit.line}` })))(
    '$kind, at $where, does not slip through',
    async (edit) => {
      expect(edit.text).not.toBe(sourcesIn(`${root}${edit.file.split('/')[0]}`).find(({ name }) => name === edit.file)?.text);
      expect((await judge.judge(edit)).kind).not.toBe('slipped-through');
    },
  );
});
