// A register is copied out of either database and into either, row for row, and the application goes on there: an alert that nobody took
// still rings the next nurse. What is no backup, was cut off, or would be laid over something is refused, and nothing changes.

import { readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApplication } from '../../src/cli/application.ts';
import { backup, restore } from '../../src/cli/backup.ts';
import { loadRoster } from '../../src/cli/load-roster.ts';
import { withRegister, withRegisterAsItStands } from '../../src/cli/register-database.ts';
import type { Database } from '../../src/register/database.ts';
import { tablesOfRegister } from '../../src/register/migrate.ts';
import { publicationsIn } from '../../src/register/publications.ts';
import { registerIn } from '../../src/register/register.ts';
import { rosterStoreIn } from '../../src/register/roster.ts';
import type { SealingKeys } from '../../src/register/sealing/keys.ts';
import { embeddedSessions } from '../../src/sessions/embedded.ts';
import { demoRoster, inForce } from '../support/desk.ts';
import { startPostgresServer } from '../support/postgres-server.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

type Place = Parameters<typeof backup>[0] & { readonly PIPIT_KEYS: SealingKeys };
const PIPIT_KEYS: SealingKeys = [{ id: 'test', key: Buffer.alloc(32, 7) }];
const demo = loadRoster(new URL('../../flows/demo', import.meta.url).pathname);
const folder = temporaryFolder();
let server: Awaited<ReturnType<typeof startPostgresServer>>;
let made = 0;
const morning = Date.parse('2026-11-25T09:30:00+03:00');
const worker = '+254700555101';

beforeAll(async () => {
  server = await startPostgresServer();
});
afterAll(async () => {
  await server.stop();
  folder.remove();
});

/** An empty database of this kind. */
async function empty(kind: 'PGlite' | 'PostgreSQL'): Promise<Place> {
  made += 1;
  if (kind === 'PGlite')
    return { DATABASE_URL: undefined, PIPIT_DATA: join(folder.path, `data-${made}`), REDIS_URL: undefined, PIPIT_KEYS };
  await withRegisterAsItStands({ DATABASE_URL: server.url, PIPIT_DATA: '' }, (database) =>
    database.script(`create database other_${made}`),
  );
  return { DATABASE_URL: server.url.replace(/\/postgres$/, `/other_${made}`), PIPIT_DATA: '', REDIS_URL: undefined, PIPIT_KEYS };
}

function application(database: Database, now: number) {
  const sent: { to: string; text: string }[] = [];
  const log = { info: () => {}, warn: () => {}, error: () => {} };
  const built = buildApplication({
    stores: { sessions: embeddedSessions(database), register: registerIn(database) },
    roster: demoRoster,
    published: inForce,
    send: async ({ to, text }) => {
      sent.push({ to, text });
      return { kind: 'sent', gatewayId: 'invented' };
    },
    screen: { gsm7: 182, ucs2: 70 },
    now: () => now,
    log,
  });
  return { ...built, sent };
}

/** A baby with fits whose alert was sent to the first nurse, a roster, a publication, an entry that waits. */
async function fill(database: Database): Promise<void> {
  const { receive, sendDue } = application(database, morning);
  for (const [at, text] of ['BABY 1 0430 39 3100', '1'].entries()) await receive({ channel: 'sms', from: worker, id: `sms:${at}`, text });
  for (let times = 0; times < 3; times += 1) await sendDue();
  await rosterStoreIn(database).import(demo, 'Zawadi', morning);
  for (const [after, note] of ['the first', 'a "quoted" note\nof two lines'].entries())
    await publicationsIn(database).publish({
      files: [{ name: 'flows/a.yaml', text: `flow: ${after}\n` }],
      after,
      version: `v${after}`,
      by: 'Zawadi',
      at: morning,
      note,
      restores: null,
    });
  await embeddedSessions(database).keep([{ key: 'audit:kept', entry: { kind: 'audit' } }] as never);
}

/** As it stands: what is sealed is copied sealed. */
const contents = (place: Place) =>
  withRegisterAsItStands(place, async (database) => {
    const rows = new Map<string, unknown>();
    for (const table of tablesOfRegister())
      rows.set(table, await database.query(`select to_jsonb(t)::text as row from ${table} as t order by 1`));
    return rows;
  });

const quiet = (): void => {};

describe.each([
  ['PGlite', 'PostgreSQL'],
  ['PostgreSQL', 'PGlite'],
  ['PostgreSQL', 'PostgreSQL'],
] as const)('a register in %s, copied into %s', (from, into) => {
  it('holds the same rows in every table, and rings the next nurse', { timeout: 240_000 }, async () => {
    const [source, target] = [await empty(from), await empty(into)];
    await withRegister(source, fill);
    const file = join(folder.path, `${from}-${into}.gz`);
    expect(await backup(source, file, morning, quiet)).toBe(0);
    expect(await restore(target, file, false, quiet)).toBe(0);
    const copied = await contents(target);
    expect(copied).toEqual(await contents(source));
    expect(JSON.stringify(copied.get('people'))).toContain('sealed:test:');
    for (const table of ['alerts', 'texts_out', 'due_work', 'kept_entries', 'facilities', 'publications', 'sessions'])
      expect(copied.get(table), table).not.toEqual([]);
    await withRegister(target, async (database) => {
      await embeddedSessions(database).keep([{ key: 'audit:later', entry: { kind: 'audit' } }] as never);
      expect((await embeddedSessions(database).kept(9)).map(({ key }) => key)).toEqual(['audit:kept', 'audit:later']);
      const { sendDue, sent } = application(database, morning + 6 * 60_000);
      for (let times = 0; times < 3; times += 1) await sendDue();
      expect(sent.map(({ to, text }) => `${to} ${text}`).join('\n')).toMatch(/^\+254700555021 .*URGENT/m);
    });
  });
});

describe('a restore', () => {
  let source: Place;
  const file = join(folder.path, 'whole.gz');
  beforeAll(async () => {
    source = await empty('PostgreSQL');
    await withRegister(source, fill);
    await backup(source, file, morning, quiet);
  });

  it('is refused over a register that holds something, and done when it is told to', async () => {
    const before = await contents(source);
    await expect(restore(source, file, false, quiet)).rejects.toThrow('The register is not empty');
    expect(await contents(source)).toEqual(before);
    await withRegister(source, (database) => embeddedSessions(database).keep([{ key: 'audit:since', entry: { kind: 'audit' } }] as never));
    expect(await restore(source, file, true, quiet)).toBe(0);
    expect(await contents(source)).toEqual(before);
  });

  /** The lines of the backup, changed. */
  const changed = (name: string, change: (lines: string[]) => string[]): string => {
    const path = join(folder.path, name);
    writeFileSync(path, gzipSync(change(gunzipSync(readFileSync(file)).toString().split('\n')).join('\n')));
    return path;
  };

  it.each([
    ['without its last line', (lines: string[]) => lines.slice(0, -2), 'was cut off'],
    [
      'with a row too few',
      (lines: string[]) => lines.filter((_, at) => at !== lines.indexOf('{"table":"texts_out"}') + 1),
      'rows and holds',
    ],
    ['from a newer program', (lines: string[]) => [lines[0]!.replace(']', ',"9999-newer.sql"]'), ...lines.slice(1)], 'the newer program'],
    ['with a table of its own', (lines: string[]) => [lines[0]!, '{"table":"pg_authid"}', ...lines.slice(1)], 'a table "pg_authid"'],
    ['that is none', () => ['hello'], 'no backup of a register'],
  ])('of a file %s changes nothing', async (name, change, why) => {
    const target = await empty('PostgreSQL');
    await expect(restore(target, changed(`${name}.gz`, change), false, quiet)).rejects.toThrow(why);
    expect([...(await contents(target)).values()].flat()).toEqual([]);
  });

  it('of a file that was torn off in the middle changes nothing', async () => {
    const torn = join(folder.path, 'torn.gz');
    writeFileSync(torn, readFileSync(file));
    truncateSync(torn, 900);
    const target = await empty('PostgreSQL');
    await expect(restore(target, torn, false, quiet)).rejects.toThrow('was cut off');
    expect([...(await contents(target)).values()].flat()).toEqual([]);
  });

  it('of a backup by an older program brings it up to date', async () => {
    const older = changed('older.gz', (lines) => [
      lines[0]!.replace(/,"0012[^\]]*\]/, ']'),
      ...lines.slice(1).filter((line) => !/^\{"table":"(accounts|account_sessions)"/.test(line)),
    ]);
    const target = await empty('PostgreSQL');
    expect(await restore(target, older, false, quiet)).toBe(0);
    expect((await contents(target)).get('alerts')).toEqual((await contents(source)).get('alerts'));
  });
});

it('overwrites no file, and leaves none behind that is not whole', async () => {
  const target = await empty('PostgreSQL');
  const there = join(folder.path, 'there.gz');
  writeFileSync(there, 'something');
  await expect(backup(target, there, morning, quiet)).rejects.toThrow('EEXIST');
  expect(readFileSync(there, 'utf8')).toBe('something');
  const away = { ...target, DATABASE_URL: 'postgres://pipit@127.0.0.1:1/none' };
  const half = join(folder.path, 'half.gz');
  await expect(backup(away, half, morning, quiet)).rejects.toThrow('could not be reached');
  expect(() => readFileSync(half)).toThrow('ENOENT');
});
