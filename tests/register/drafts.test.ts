// The table of the draft: of two who save one file at once the second is told, and only the save that was published is discarded.

import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Database } from '../../src/register/database.ts';
import { draftsIn } from '../../src/register/drafts.ts';
import { openMigrated } from '../support/migrated-database.ts';

let database: Database;
beforeAll(async () => {
  database = await openMigrated();
});
afterAll(() => database?.close());

const file = (name: string, text: string) => ({ name, text, by: 'rose', at: 1 });

it('discards a file only while it is the save that is named, and all files when none is', async () => {
  const drafts = draftsIn(database);
  await drafts.save(file('a', '1'), 0);
  await drafts.save(file('b', '1'), 0);
  expect(await drafts.save(file('a', '2'), 1)).toEqual({ kind: 'saved', save: 2 });
  expect(await drafts.save(file('a', '3'), 1)).toMatchObject({ kind: 'overtaken', by: { text: '2' } });
  await drafts.discard('a', 1);
  await drafts.discard('b', 1);
  expect((await drafts.read()).map(({ name, text }) => [name, text])).toEqual([['a', '2']]);
  await drafts.save(file('b', '1'), 0);
  await drafts.discard();
  expect(await drafts.read()).toEqual([]);
});
