// PINs from a coordinator's table to the register and back: digits go in, a hash alone is kept and comes out, and it opens the phone.

import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { buildApplication, openStores } from '../../src/cli/application.ts';
import { readConfig } from '../../src/cli/config.ts';
import { openLiveRoster } from '../../src/cli/live-roster.ts';
import { exportRoster, importRoster } from '../../src/cli/roster.ts';
import { rosterStoreIn } from '../../src/register/roster.ts';
import { reseal } from '../../src/register/sealing/reseal.ts';
import { sealedDatabase } from '../../src/register/sealing/sealed-database.ts';
import { read, sound } from '../authoring/roster-tables.ts';
import { flowsFolder } from '../support/default-protocol.ts';
import { inForce } from '../support/desk.ts';
import { memorySessions } from '../support/memory-stores.ts';
import { openMigrated } from '../support/migrated-database.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const folder = temporaryFolder();
afterAll(() => folder.remove());
const [worker, pin, other] = ['+254700555101', '4820', '73190264'];
const line = `${worker},Akinyi Odera,worker,marula,en,yes,`;
const hash = /scrypt\$32768\$8\$3\$[A-Za-z0-9+/]{22}==\$[A-Za-z0-9+/]{43}=/;
const now = Date.UTC(2026, 10, 25, 9);

const outcome = readConfig({ PIPIT_DATA: join(folder.path, 'data') }, join(flowsFolder, '..'));
if (outcome.kind === 'refused') throw new Error(outcome.faults.join('\n'));
const { config } = outcome;

let folders = 0;

/** The demo with this in the cell of one worker. */
function written(cell: string, spoil: (text: string) => string = (text) => text): string {
  folders += 1;
  const path = join(folder.path, `given-${folders}`);
  cpSync(join(flowsFolder, 'demo'), path, { recursive: true });
  const people = readFileSync(join(path, 'people.csv'), 'utf8').replace(line, `${line}${cell}`);
  writeFileSync(join(path, 'people.csv'), spoil(people));
  return path;
}

async function imported(path: string, at = now): Promise<string> {
  const lines: string[] = [];
  await importRoster(config, path, 'Rose', at, (one) => lines.push(one));
  return lines.join('\n');
}

describe('a PIN in the table', () => {
  it('is a hash in the export, which imports again and changes nothing; so do the same digits', async () => {
    const path = written(pin);
    expect(await imported(path)).toContain('Imported');
    await exportRoster(config, join(folder.path, 'out'), () => {});
    const people = readFileSync(join(folder.path, 'out', 'people.csv'), 'utf8');
    expect(people).toMatch(hash);
    expect(people).not.toContain(pin);
    expect(await imported(join(folder.path, 'out'))).toContain('Nothing has changed');
    expect(await imported(path)).toContain('Nothing has changed');
    expect(await imported(written(other))).toContain('changed person');
    expect(await imported(written(''))).toContain('changed person');
  });

  it('is hidden where a fault is shown with the lines around it', async () => {
    const said = await imported(written(pin, (text) => text.replace('Juma Hamisi,worker,marula', 'Juma Hamisi,worker,nowhere')));
    expect(said).toContain(`${line}****`);
    expect(said).not.toContain(pin);
  });
});

describe('a PIN in the register', () => {
  const keys = [{ id: '2026', key: Buffer.alloc(32, 2) }] as const;

  it('stands sealed there, in the trail only as set or changed, and is sealed anew with the names', async () => {
    const database = await openMigrated();
    try {
      const store = rosterStoreIn(sealedDatabase(database, null));
      const { data } = read(sound);
      const [akinyi, ...people] = data.people;
      if (akinyi === undefined) throw new Error('The roster is empty.');
      await store.import({ ...data, people: [{ ...akinyi, pin }, ...people] }, 'Rose', now);
      await store.import({ ...data, people: [{ ...akinyi, pin: other }, ...people] }, 'Rose', now + 1);
      await store.import(data, 'Rose', now + 2);
      await store.import({ ...data, people: [{ ...akinyi, pin }, ...people] }, 'Rose', now + 3);
      const trail = await database.query<{ body: { before: { pin?: string } | null; after: { pin?: string } | null } }>(
        'select body from audit where about = $1 order by at',
        [akinyi.phone],
      );
      expect(trail.map(({ body }) => [body.before?.pin, body.after?.pin])).toEqual([
        [undefined, 'set'],
        ['set', 'changed'],
        ['set', undefined],
        [undefined, 'set'],
      ]);
      expect((await reseal(database, keys)).get('people.pin')).toBe(1);
      const stored = await database.query<{ pin: string | null }>('select pin from people where pin is not null');
      expect(stored.map((row) => row.pin?.startsWith('sealed:2026:'))).toEqual([true]);
      const opened = await rosterStoreIn(sealedDatabase(database, keys)).read();
      expect(opened.data.people.find(({ phone }) => phone === akinyi.phone)?.pin).toMatch(hash);
    } finally {
      await database.close();
    }
  });

  it('opens the phone, from the next message after it was set and until it is taken away', async () => {
    await imported(join(flowsFolder, 'demo'));
    const stores = await openStores({ data: config.PIPIT_DATA });
    try {
      const roster = await openLiveRoster({ store: stores.roster, log: { info: () => {}, warn: () => {} } });
      let [clock, messages] = [now, 0];
      const { receive } = buildApplication({
        stores: { sessions: memorySessions(), register: stores.register },
        ...{ roster, published: inForce, screen: { gsm7: 182, ucs2: 70 }, now: () => (clock += 1_000) },
        send: async () => ({ kind: 'sent', gatewayId: 'none' }),
        log: { info: () => {}, warn: () => {}, error: (about, what) => expect.fail(`${what}: ${JSON.stringify(about)}`) },
      });
      const text = async (said: string): Promise<string> => {
        messages += 1;
        return (await receive({ channel: 'sms', from: worker, id: `message-${messages}`, text: said })).text;
      };
      const setPin = async (to: string | undefined): Promise<void> => {
        const { data } = await stores.roster.read();
        const people = data.people.map(({ pin: _pin, ...person }) =>
          person.phone === worker && to !== undefined ? { ...person, pin: to } : person,
        );
        await stores.roster.import({ ...data, people }, 'Rose', clock);
        await roster.refresh();
      };
      expect(await text('LIST')).not.toMatch(/PIN/);
      await setPin(pin);
      expect(await text('LIST')).toMatch(/Send your PIN/);
      expect(await text('4821')).toMatch(/Not the PIN/);
      expect(await text(pin)).not.toMatch(/PIN/);
      await setPin(undefined);
      clock += 86_400_000;
      expect(await text('LIST')).not.toMatch(/PIN/);
    } finally {
      await stores.end();
    }
  });
});
