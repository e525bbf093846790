// What the register promises of publications, as one suite: whole or not at all, one of several at once, never changed afterwards.
// Next: publications.test.ts, which runs it on both databases.

import { beforeAll, describe, expect, it } from 'vitest';
import type { NewPublication } from '../../src/conversation/publications.ts';
import type { Database } from '../../src/register/database.ts';
import { publicationsIn } from '../../src/register/publications.ts';

const by = 'Rose, an invented coordinator';
const first: NewPublication = {
  files: [
    { name: 'locales/en/signs.yaml', text: 'b: "é\u0001"\n' },
    { name: 'flows/recheck.yaml', text: '' },
  ],
  version: 'v1',
  by,
  at: Date.UTC(2026, 10, 25, 9),
  note: null,
  restores: null,
  after: 0,
};

export function publicationsConformance(name: string, database: () => Database): void {
  const store = () => publicationsIn(database());

  describe(`publications in ${name}`, () => {
    beforeAll(async () => {
      expect([await store().last(), await store().list(5)]).toEqual([0, []]);
      expect(await store().publish(first)).toEqual({ kind: 'published', number: 1 });
    });

    it('give their files back to the letter and in their order', async () => {
      expect(await store().files(1)).toEqual(first.files);
      expect(await store().files(99)).toEqual([]);
    });

    it('are published by one of several who began from the same', async () => {
      const after = await store().last();
      const outcomes = await Promise.all(['a', 'b', 'c'].map((version) => store().publish({ ...first, version, by: version, after })));
      const published = outcomes.filter(({ kind }) => kind === 'published');
      expect(published).toEqual([{ kind: 'published', number: after + 1 }]);
      const [newest] = await store().list(1);
      expect(outcomes.filter(({ kind }) => kind !== 'published')).toEqual([0, 1].map(() => ({ kind: 'overtaken', by: newest })));
      expect(await store().last()).toBe(after + 1);
    });

    it('are listed newest first, with who, when and why', async () => {
      const after = await store().last();
      const second = { ...first, version: 'v1', at: first.at + 1, note: 'back to before', restores: 1, after };
      await store().publish(second);
      const { files: _files, after: _after, ...said } = second;
      expect(await store().list(1)).toEqual([{ ...said, number: after + 1 }]);
      expect((await store().list(10)).map(({ number }) => number)).toEqual(Array.from({ length: after + 1 }, (_, at) => after + 1 - at));
    });

    it('keep the text of a file that stays once', async () => {
      const count = () => database().query<{ texts: number }>('select count(*)::integer as texts from file_texts');
      const before = await count();
      await store().publish({ ...first, after: await store().last() });
      expect(await count()).toEqual(before);
    });

    it('stand in the audit trail', async () => {
      const [line] = await database().query(`select by, what, about, at, body from audit where key = 'publication:1'`);
      expect(line).toEqual({ by, what: 'published', about: '1', at: first.at, body: { version: 'v1', note: null, restores: null } });
    });

    it.each(['publications', 'publication_files', 'file_texts'])('are never changed: %s', async (table) => {
      await expect(database().script(`delete from ${table}`)).rejects.toThrow('written once');
    });
  });
}
