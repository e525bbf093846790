// Names and card numbers sealed in the register: a whole examination and a roster leave none to be read in any table, everything that
// reads them reads them still, another key takes over, and what was changed or has no key is refused.

import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApplication } from '../../src/cli/application.ts';
import { loadRoster } from '../../src/cli/load-roster.ts';
import { rosterOf } from '../../src/conversation/roster.ts';
import type { Database } from '../../src/register/database.ts';
import { registerIn } from '../../src/register/register.ts';
import { rosterStoreIn } from '../../src/register/roster.ts';
import { readSealingKeys, type SealingKeys } from '../../src/register/sealing/keys.ts';
import { reseal } from '../../src/register/sealing/reseal.ts';
import { isSealed, SealError, seal, unseal } from '../../src/register/sealing/seal.ts';
import { sealedDatabase } from '../../src/register/sealing/sealed-database.ts';
import { inForce } from '../support/desk.ts';
import { memorySessions } from '../support/memory-stores.ts';
import { openMigrated } from '../support/migrated-database.ts';

const keyOf = (id: string, byte: number) => ({ id, key: Buffer.alloc(32, byte) });
const old: SealingKeys = [keyOf('2025', 1)];
const both: SealingKeys = [keyOf('2026', 2), keyOf('2025', 1)];
const fresh: SealingKeys = [keyOf('2026', 2)];

describe('a sealed value', () => {
  it('opens to what McGrew and Viega print for AES-256 (The Galois/Counter Mode of Operation, test case 14; from memory)', () => {
    const written = ['00'.repeat(12), 'cea7403d4d606b6e074ec5d3baf39d18', 'd0d1c8a799996bf0265b98b5d48ab919'].join('');
    const sealed = `sealed:zero:${Buffer.from(written, 'hex').toString('base64url')}`;
    expect(unseal(sealed, [keyOf('zero', 0)])).toBe('\0'.repeat(16));
  });

  it('is another each time, opens again, and does not once a letter is changed', () => {
    const [one, other] = [seal('Akinyi Odera', old[0]), seal('Akinyi Odera', old[0])];
    expect(one).not.toBe(other);
    expect([one, other].map((sealed) => unseal(sealed, both))).toEqual(['Akinyi Odera', 'Akinyi Odera']);
    const at = one.length - 3;
    const changed = `${one.slice(0, at)}${one[at] === 'A' ? 'B' : 'A'}${one.slice(at + 1)}`;
    expect(() => unseal(changed, both)).toThrow(SealError);
  });

  it('opens with no key but its own, and says which', () => {
    const sealed = seal('12/26', old[0]);
    expect(() => unseal(sealed, fresh)).toThrow(/"2025", which PIPIT_KEYS does not have/);
    expect(() => unseal(sealed, null)).toThrow(/"2025"/);
    expect(() => unseal(sealed, [keyOf('2025', 9)])).toThrow(/does not open/);
  });

  it.each(['', '12/26', 'sealed:', 'sealed:2025:12/26', 'sealed:2025:abc'])('is not what a phone can send: "%s"', (text) => {
    expect(isSealed(text)).toBe(false);
    expect(unseal(text, old)).toBe(text);
  });
});

describe('keys', () => {
  const written = (id: string, bytes = 32): string => `${id}:${Buffer.alloc(bytes, 5).toString('base64')}`;

  it('are several, the first for writing', () => {
    const read = readSealingKeys(`${written('b')}, ${written('a')}`);
    expect(read.kind === 'keys' && read.keys.map(({ id }) => id)).toEqual(['b', 'a']);
  });

  it.each([
    ['nothing', ''],
    ['no id', Buffer.alloc(32).toString('base64')],
    ['a key that is too short', written('a', 16)],
    ['a key that is too long', written('a', 33)],
    ['the same id twice', `${written('a')},${written('a')}`],
    ['a comma too many', `${written('a')},`],
  ])('are refused with %s, without being said', (_what, text) => {
    const read = readSealingKeys(text);
    expect(read.kind).toBe('refused');
    expect(JSON.stringify(read)).not.toContain(Buffer.alloc(16, 5).toString('base64').slice(0, 12));
  });
});

const [worker, card, nurseName] = ['+254700555101', 'MR-77/26', 'Nurse Wanjiru'];
const roster = loadRoster(fileURLToPath(new URL('../../flows/demo', import.meta.url)));
const noon = Date.UTC(2026, 10, 24, 9);

/** Every row of every table, as whoever has the files would read it. */
async function filesOf(database: Database): Promise<string> {
  const tables = await database.query<{ name: string }>(`select tablename as name from pg_tables where schemaname = 'public'`);
  const rows = await Promise.all(
    tables.map(async ({ name }) => {
      const found = await database.query<{ row: unknown }>(`select to_jsonb(one) as row from ${name} as one`);
      return found.map(({ row }) => `${name} ${JSON.stringify(row).replaceAll('":', '": ')}`);
    }),
  );
  return rows.flat().join('\n');
}

describe('the register', () => {
  let database: Database;
  beforeAll(async () => {
    database = await openMigrated();
  });
  afterAll(() => database?.close());

  /** A girl with a card and a fit, examined to the end. */
  async function examine(keys: SealingKeys | null, day: number): Promise<void> {
    let clock = noon + day * 86_400_000;
    const { receive } = buildApplication({
      stores: { sessions: memorySessions(), register: registerIn(sealedDatabase(database, keys)) },
      ...{ roster: rosterOf(roster), published: inForce, screen: { gsm7: 182, ucs2: 70 }, now: () => (clock += 1_000) },
      send: async () => ({ kind: 'sent', gatewayId: 'none' }),
      log: { info: () => {}, warn: () => {}, error: (about, what) => expect.fail(`${what}: ${JSON.stringify(about)}`) },
    });
    const [fit, goOn, none, vitals, regions] = ['1', '2', '0', '36.8 44 132', 20];
    const texts = [`BABY 1 0430 39 3100 ${card}`, fit, goOn, none, none, vitals, ...new Array<string>(regions).fill(none)];
    for (const [at, text] of texts.entries()) await receive({ channel: 'sms', from: worker, id: `${day}-${at}`, text });
  }

  const readNames = async (keys: SealingKeys): Promise<readonly string[]> =>
    (await rosterStoreIn(sealedDatabase(database, keys)).read()).data.people.map(({ name }) => name);
  const readCards = async (keys: SealingKeys): Promise<readonly unknown[]> =>
    (await sealedDatabase(database, keys).query<{ card: unknown }>('select card from babies order by first_at')).map((row) => row.card);
  /** What stands between the quotes behind `card`, anywhere. */
  const cardsIn = (files: string): readonly string[] => [...files.matchAll(/"card": "([^"]*)"/g)].map(([, written]) => written ?? '');

  it('holds no name and no card number that can be read, and reads both', async () => {
    await rosterStoreIn(sealedDatabase(database, old)).import(roster, 'a test', noon);
    await examine(old, 0);
    const files = await filesOf(database);
    for (const said of [card, nurseName, 'Akinyi']) expect(rowsWith(files, said)).toEqual([]);
    expect(cardsIn(files).length).toBeGreaterThan(1);
    for (const written of cardsIn(files)) expect(written).toMatch(/^sealed:2025:/);
    expect(await readNames(old)).toEqual(roster.people.map(({ name }) => name));
    expect(await readCards(old)).toEqual([card]);
    const trail = await sealedDatabase(database, old).query<{ body: unknown }>(`select body from audit where what = 'person-added'`);
    expect(JSON.stringify(trail)).toContain(nurseName);
  });

  it('says what to do when there is no key', async () => {
    await expect(readNames(fresh)).rejects.toThrow(/Add it behind the others/);
    await expect(rosterStoreIn(sealedDatabase(database, null)).read()).rejects.toThrow(/PIPIT_KEYS/);
  });

  it('writes with the new key and reads with both', async () => {
    await examine(both, 1);
    expect(await readCards(both)).toEqual([card, card]);
  });

  it('is sealed anew with the new key, what was written without any too, and needs the old one no more', async () => {
    await examine(null, 2);
    expect(await filesOf(database)).toContain(card);
    const done = await reseal(database, both);
    expect([...done.keys()].sort()).toEqual(expect.arrayContaining(['audit.body', 'babies.card', 'examinations.facts', 'people.name']));
    const files = await filesOf(database);
    expect(rowsWith(files, card)).toEqual([]);
    expect(files).not.toContain('sealed:2025:');
    expect(await readCards(fresh)).toEqual([card, card, card]);
    expect(await readNames(fresh)).toEqual(roster.people.map(({ name }) => name));
    expect(await reseal(database, both)).toEqual(new Map());
    await expect(database.query(`update audit set what = 'other'`)).rejects.toThrow(/never changed/);
  });
});

/** Words of texts that went out over the air stand as they went; see the threat model. */
function rowsWith(files: string, said: string): string[] {
  return files.split('\n').filter((row) => row.includes(said) && !row.startsWith('texts_out '));
}
