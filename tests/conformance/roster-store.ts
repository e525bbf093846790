// What the register promises of the roster, as one suite: imported whole or not at all, audited line by line, given back as it was.
// Next: roster-store.test.ts, which runs it on both databases.

import { describe, expect, it } from 'vitest';
import type { RosterData } from '../../src/conversation/roster.ts';
import type { Database } from '../../src/register/database.ts';
import { rosterStoreIn } from '../../src/register/roster.ts';
import { read, sound } from '../authoring/roster-tables.ts';

const noon = Date.UTC(2026, 10, 25, 9);
const by = 'Rose, an invented coordinator';
const known = read({
  ...sound,
  rota: `${sound.rota}marula,2026-12-24..2026-12-26,20:00,08:00,+254700555021,1\n`,
}).data;

export function rosterConformance(name: string, database: () => Database): void {
  const store = () => rosterStoreIn(database());
  /** The audit trail of one import. */
  const auditOf = (number: number) =>
    database().query<{ what: string; about: string; by: string; at: number; body: unknown }>(
      'select what, about, by, at, body from audit where key like $1 order by what, about',
      [`roster:${number}:%`],
    );
  /** Imports this roster, and then that one; what the second changed, and its number. */
  const change = async (from: RosterData, to: RosterData) => {
    await store().import(from, by, noon);
    const changes = await store().import(to, by, noon + 1);
    return { changes, number: await store().lastImport() };
  };

  describe(`a roster in ${name}`, () => {
    it('is imported first by one of several that find nobody there', async () => {
      expect(await store().lastImport()).toBe(0);
      const done = await Promise.all([1, 2, 3].map(() => store().importFirst(known, by, noon)));
      expect(done.filter((isDone) => isDone)).toHaveLength(1);
      expect(await store().lastImport()).toBe(1);
      expect(await store().importFirst({ ...known, leave: [] }, by, noon)).toBe(false);
      expect((await store().read()).data.leave).toEqual(known.leave);
    });

    it('is read back as it was, also in its order', async () => {
      const turned = {
        ...known,
        facilities: [...known.facilities].reverse(),
        people: [...known.people].reverse(),
        shifts: [...known.shifts].reverse(),
      };
      for (const data of [known, turned]) {
        await store().import(data, by, noon);
        expect((await store().read()).data).toEqual(data);
      }
    });

    it('that changes nothing has no number of its own and no line in the audit trail', async () => {
      const before = await change({ ...known, leave: [] }, known);
      expect(await store().import(known, by, noon + 2)).toEqual([]);
      expect(await store().lastImport()).toBe(before.number);
      expect(await auditOf(before.number + 1)).toEqual([]);
    });

    it('has one audit line for each person, facility, shift and leave that changed, with before and after', async () => {
      const [akinyi, ...others] = known.people;
      const [marula, baobab] = known.facilities;
      const [day, ...shifts] = known.shifts;
      if (akinyi === undefined || marula === undefined || baobab === undefined || day === undefined)
        throw new Error('The roster is empty.');
      const to: RosterData = {
        facilities: [{ ...marula, travelMinutes: 50 }, baobab],
        people: [...others, { ...akinyi, phone: '+254700555109' }],
        shifts: [{ ...day, phone: '+254700555021' }, ...shifts],
        leave: [],
      };
      const { changes, number } = await change(known, to);
      const lines = await auditOf(number);
      expect(lines.map(({ what, about }) => `${what} ${about}`)).toEqual([
        'facility-changed marula',
        'leave-removed +254700555012 2026-12-24',
        'person-added +254700555109',
        'person-removed +254700555101',
        'shift-changed marula mon-fri 480 1',
      ]);
      expect(changes).toHaveLength(lines.length);
      expect(lines[0]).toMatchObject({ by, at: noon + 1, body: { before: { travelMinutes: 45 }, after: { travelMinutes: 50 } } });
      expect(lines[1]?.body).toEqual({ before: known.leave[0], after: null });
      expect(lines[2]?.body).toEqual({ before: null, after: to.people.at(-1) });
      expect(lines[4]?.body).toEqual({ before: day, after: to.shifts[0] });
    });

    it('is imported whole or not at all', async () => {
      const { number } = await change({ ...known, leave: [] }, known);
      const stranger = {
        ...known,
        leave: [{ phone: '+254700555999', from: '2026-12-24', until: '2026-12-24', instead: null }],
        people: known.people.slice(1),
      };
      await expect(store().import(stranger, by, noon + 2)).rejects.toThrow();
      expect(await store().read()).toEqual({ number, data: known });
      expect(await auditOf(number + 1)).toEqual([]);
    });

    it('is imported only after the import that was seen, where that is asked for', async () => {
      const [one, other] = [known, { ...known, leave: [] }];
      const { number: seen } = await change(other, one);
      expect(await store().importAfter(seen - 1, other, by, noon + 2)).toBeNull();
      expect((await store().read()).data.leave).toEqual(one.leave);
      expect((await store().importAfter(seen, other, by, noon + 3))?.length).toBeGreaterThan(0);
      expect(await store().importAfter(seen, one, by, noon + 4)).toBeNull();
      expect((await store().read()).data.leave).toEqual([]);
    });

    it('imported twice at once is numbered twice, and the audit trail tells the second from the first', async () => {
      const { number } = await change({ ...known, leave: [] }, known);
      const named = (name: string): RosterData => ({
        ...known,
        people: known.people.map((person, index) => (index === 0 ? { ...person, name } : person)),
      });
      await Promise.all([store().import(named('One'), by, noon), store().import(named('Two'), by, noon)]);
      expect(await store().lastImport()).toBe(number + 2);
      const [last] = await auditOf(number + 2);
      const { data } = await store().read();
      expect(last?.body).toMatchObject({
        before: { name: data.people[0]?.name === 'Two' ? 'One' : 'Two' },
        after: { name: data.people[0]?.name },
      });
    });

    it('keeps what it said before: an import is never unsaid', async () => {
      await expect(database().query('delete from roster_imports')).rejects.toThrow('written once');
    });
  });
}
