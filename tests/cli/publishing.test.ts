// Publishing, undoing, and processes that take over what was published, over a register in memory and the shipped files.

import { beforeEach, describe, expect, it } from 'vitest';
import { openLivePublished } from '../../src/cli/live-published.ts';
import { filesOf } from '../../src/cli/load-published.ts';
import { prove } from '../../src/cli/prove.ts';
import { type PublishingParts, publishFiles, undo } from '../../src/cli/publishing.ts';
import type { Publications, PublishedFile } from '../../src/conversation/publications.ts';
import { say } from '../../src/messages/catalogue.ts';
import { publicationsIn } from '../../src/register/publications.ts';
import { flowsFolder } from '../support/default-protocol.ts';
import { openMigrated } from '../support/migrated-database.ts';

const config = { flows: flowsFolder, locales: `${flowsFolder}/../locales`, PIPIT_ALLOW_DRAFTS: true };
const shipped = filesOf(config);
const author = { by: 'Rose, an invented coordinator', at: Date.UTC(2026, 10, 25, 9), note: null };
const edited = (name: string, edit: (text: string) => string): PublishedFile[] => {
  const files = shipped.map((file) => (file.name === name ? { name, text: edit(file.text) } : file));
  expect(files).not.toEqual(shipped);
  return files;
};
const busy = edited('locales/en/system.yaml', (text) => text.replace(/^(\s*busy: ).*/m, '$1Wait a little, then send it again.'));
const unsound = edited('flows/recheck.yaml', (text) => text.replace('read:', 'reed:'));

let store: Publications;
let parts: PublishingParts;
beforeEach(async () => {
  store = publicationsIn(await openMigrated());
  parts = { store, folder: () => shipped, prove: async (files) => prove(files, { trusted: true }).diagnostics };
});

const quiet = { info: () => {}, warn: () => {}, error: () => {} };
const busyNow = ({ current }: Awaited<ReturnType<typeof openLivePublished>>): string => say(current().catalogues, 'en', 'system.busy', {});

describe('publishing', () => {
  it('writes down what was in force before the first publication, so that there is a way back', async () => {
    expect(await publishFiles(busy, 0, author, parts)).toEqual({ kind: 'published', number: 2 });
    expect(await store.files(1)).toEqual(shipped);
    expect(await undo(author, parts)).toEqual({ kind: 'published', number: 3 });
    expect(await store.files(3)).toEqual(shipped);
    expect((await store.list(1))[0]).toMatchObject({ number: 3, restores: 1 });
  });

  it('takes back an undo too, and brings back any number that is asked for', async () => {
    await publishFiles(busy, 0, author, parts);
    await undo(author, parts);
    await undo(author, parts);
    expect(await store.files(4)).toEqual(busy);
    expect(await undo(author, parts, 1)).toEqual({ kind: 'published', number: 5 });
    expect(await store.files(5)).toEqual(shipped);
  });

  it.each([
    ['before anything is published', undefined],
    ['for a number that is not there', 7],
    ['for no whole number', 0.5],
  ])('undoes nothing %s', async (_when, to) => {
    expect(await undo(author, parts, to)).toEqual({ kind: 'unknown' });
    expect(await store.last()).toBe(0);
  });

  it('undoes nothing once there is a publication that the author has not seen', async () => {
    await publishFiles(busy, 0, author, parts);
    await undo(author, parts);
    expect(await undo(author, parts, undefined, 2)).toMatchObject({ kind: 'overtaken', by: { number: 3 } });
    expect(await store.last()).toBe(3);
  });

  it('is refused with what check says, and nothing is written', async () => {
    const outcome = await publishFiles(unsound, 0, author, parts);
    expect(outcome).toMatchObject({
      kind: 'refused',
      diagnostics: expect.arrayContaining([expect.objectContaining({ file: 'flows/recheck.yaml' })]),
    });
    expect(await store.last()).toBe(0);
  });

  it('says so when nothing has changed', async () => {
    expect(await publishFiles(shipped, 0, author, parts)).toEqual({ kind: 'same', number: 0 });
    expect(await store.last()).toBe(0);
  });

  it('does not put one edit over another that its author has not seen', async () => {
    await publishFiles(busy, 0, author, parts);
    const late = await publishFiles(
      edited('locales/en/system.yaml', (text) => `${text}# later\n`),
      0,
      author,
      parts,
    );
    expect(late).toMatchObject({ kind: 'overtaken', by: { number: 2 } });
    expect(await store.last()).toBe(2);
  });
});

describe('a process at work', () => {
  it('serves the folder until something is published, then that, within one look', async () => {
    const live = await openLivePublished({ store, config, log: quiet });
    expect(live.current()).toMatchObject({ number: 0, files: shipped });
    await publishFiles(busy, 0, author, parts);
    const before = busyNow(live);
    await Promise.all([live.refresh(), live.refresh()]);
    expect(live.current().number).toBe(2);
    expect(busyNow(live)).toBe('Wait a little, then send it again.');
    await undo(author, parts);
    await live.refresh();
    expect(busyNow(live)).toBe(before);
  });

  it('that starts later serves what was published, whatever the folder holds', async () => {
    await publishFiles(busy, 0, author, parts);
    expect(busyNow(await openLivePublished({ store, config, log: quiet }))).toBe('Wait a little, then send it again.');
  });

  it('keeps the last one, and says so once, when it cannot read a later one or the register is away', async () => {
    const said: string[] = [];
    let isAway = false;
    const failing = { ...store, last: () => (isAway ? Promise.reject(new Error('away')) : store.last()) };
    const note = (_: object, what: string): void => void said.push(what);
    const live = await openLivePublished({ store: failing, config, log: { info: () => {}, warn: note, error: note } });
    const { published } = live.current();
    isAway = true;
    await live.refresh();
    await live.refresh();
    isAway = false;
    // As a newer program might publish it.
    await store.publish({ ...author, version: 'newer', restores: null, files: unsound, after: 0 });
    await live.refresh();
    await live.refresh();
    expect(live.current().published).toBe(published);
    expect(said).toEqual([expect.stringContaining('register is away'), expect.stringContaining('cannot be read by this program')]);
  });
});
