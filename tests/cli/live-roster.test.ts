// The roster that phones are served by, over a register in memory that is changed beneath it, and taken away.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { importWhenEmpty } from '../../src/cli/first-roster.ts';
import { knowingNewNumbers, openLiveRoster } from '../../src/cli/live-roster.ts';
import type { Receive } from '../../src/conversation/ports.ts';
import type { RosterData } from '../../src/conversation/roster.ts';
import type { Database } from '../../src/register/database.ts';
import { migrate } from '../../src/register/migrate.ts';
import { openEmbedded } from '../../src/register/pglite.ts';
import { type RosterStore, rosterStoreIn } from '../../src/register/roster.ts';
import { read, sound } from '../authoring/roster-tables.ts';
import { flowsFolder } from '../support/default-protocol.ts';

const known = read(sound).data;
const newcomer = '+254700555110';
const demo = { roster: `${flowsFolder}/demo`, PIPIT_ROSTER: undefined, isProduction: false };
let database: Database;
let store: RosterStore;
let now = Date.UTC(2026, 10, 25);

beforeAll(async () => {
  database = await openEmbedded('memory');
  await migrate(database);
  store = rosterStoreIn(database);
});
afterAll(() => database?.close());

/** The sound roster with a worker more. */
function grown(): RosterData {
  const [first] = known.people;
  if (first === undefined) throw new Error('The roster is empty.');
  return { ...known, people: [...known.people, { ...first, phone: newcomer }] };
}

const importNow = (data: RosterData) => store.import(data, 'test', ++now);
const quiet = { info: () => {}, warn: () => {} };
const never = (): Promise<void> => new Promise(() => {});

describe('the first roster', () => {
  it('is never the demo in production', async () => {
    await expect(importWhenEmpty(store, { ...demo, isProduction: true }, now, quiet)).rejects.toThrow('pipit roster import');
    expect(await store.lastImport()).toBe(0);
  });

  it('comes from the folder while nobody is there, and from nowhere afterwards', async () => {
    await importWhenEmpty(store, demo, now, quiet);
    expect((await store.read()).data.people.length).toBeGreaterThan(10);
    await importNow(known);
    await importWhenEmpty(store, { ...demo, isProduction: true }, now, quiet);
    expect((await store.read()).data).toEqual(known);
  });
});

describe('a live roster', () => {
  it('takes over what was imported since, when it looks again', async () => {
    await importNow(known);
    const roster = await openLiveRoster({ store, log: quiet });
    await importNow(grown());
    expect(roster.find(newcomer)).toBeUndefined();
    await roster.refresh();
    expect(roster.find(newcomer)?.name).toBe('Akinyi');
    expect(roster.workers('marula').map(({ phone }) => phone)).toContain(newcomer);
  });

  it('looks at the rows only when something was imported, and once for many who ask at once', async () => {
    await importNow(known);
    let [looks, reads] = [0, 0];
    const counting = {
      lastImport: () => {
        looks += 1;
        return store.lastImport();
      },
      read: () => {
        reads += 1;
        return store.read();
      },
    };
    const roster = await openLiveRoster({ store: counting, log: quiet });
    await Promise.all(Array.from({ length: 50 }, () => roster.refresh()));
    expect([looks, reads]).toEqual([1, 1]);
  });

  it('keeps the last roster while the register is away, says so once, and goes on when it is back', async () => {
    await importNow(known);
    let isAway = false;
    const said: string[] = [];
    const failing = { read: store.read, lastImport: () => (isAway ? Promise.reject(new Error('away')) : store.lastImport()) };
    const roster = await openLiveRoster({ store: failing, log: { info: () => {}, warn: (_, what) => said.push(what) } });
    await importNow(grown());
    isAway = true;
    await roster.refresh();
    await roster.refresh();
    expect([roster.find('+254700555101')?.name, roster.find(newcomer), said.length]).toEqual(['Akinyi', undefined, 1]);
    isAway = false;
    await roster.refresh();
    expect(roster.find(newcomer)).toBeDefined();
  });
});

describe('a number that the roster does not know', () => {
  const message = { channel: 'sms', from: newcomer, id: '1', text: 'BABY' } as const;
  const answering =
    (roster: { find(phone: string): unknown }): Receive =>
    async ({ from }) => ({ text: roster.find(from) === undefined ? 'unknown' : 'known', ends: true });

  it('is served at once after the import that brings it', async () => {
    await importNow(known);
    const roster = await openLiveRoster({ store, log: quiet });
    const receive = knowingNewNumbers(answering(roster), roster, never);
    expect((await receive(message)).text).toBe('unknown');
    await importNow(grown());
    expect((await receive(message)).text).toBe('known');
  });

  it('does not wait for a register that hangs', async () => {
    const hanging = { find: () => undefined, refresh: never };
    const receive = knowingNewNumbers(answering(hanging), hanging, () => Promise.resolve());
    expect((await receive(message)).text).toBe('unknown');
  });
});
