// What every register promises of entries, whatever their kind; the files beside have one kind each.
// Next: register-suites.ts, register-alerts.ts.

import { describe, expect, it } from 'vitest';
import type { Register } from '../../src/conversation/ports.ts';
import type { Database } from '../../src/register/database.ts';
import { alert, asked, audit, babyNews, due, examination, ofBaby, referral, referralNews, text } from './entries.ts';

export interface RegisterHarness {
  readonly register: Register;
  /** For what the port does not show: rows that must not be there, and rows that nobody may change. */
  readonly database: Database;
}

export function entriesConformance(store: string, harness: () => RegisterHarness): void {
  const rowsOf = (table: string, key: string) => harness().database.query(`select * from ${table} where key = $1`, [key]);
  const historyOf = (key: string) =>
    harness().database.query('select move, state_from, state_to, by, at from alert_history where alert = $1 order by move', [key]);

  describe(`entries in ${store}`, () => {
    it('are written together, whatever their kinds', async () => {
      const entries = [examination(), alert(), text()] as const;
      await harness().register.record(entries);
      expect(await rowsOf('examinations', entries[0].key)).toHaveLength(1);
      expect(await rowsOf('alerts', entries[1].key)).toHaveLength(1);
      expect(await rowsOf('texts_out', entries[2].key)).toHaveLength(1);
    });

    it('are written once, and stay as they were first', async () => {
      const [first, raised, sent] = [examination({ body: { n: 1 } }), alert({ body: { n: 1 } }), text({ text: 'one' })];
      await harness().register.record([first, raised, sent]);
      await harness().register.record([
        { ...first, body: { n: 2 } },
        { ...raised, body: { n: 2 } },
        { ...sent, text: 'two' },
      ]);
      expect(await rowsOf('examinations', first.key)).toMatchObject([{ body: { n: 1 } }]);
      expect(await rowsOf('alerts', raised.key)).toMatchObject([{ body: { n: 1 } }]);
      expect(await rowsOf('texts_out', sent.key)).toMatchObject([{ text: 'one' }]);
      expect(await historyOf(raised.key)).toHaveLength(1);
    });

    it('of every kind are written once, all in one call, in whatever order they stand and however often they come', async () => {
      const of = ofBaby();
      const [examined, raised, sent] = [examination(of), alert(of), referral(of)];
      const entries = [
        referralNews({ referral: sent.key, news: 'left' }),
        asked({ alert: raised.key, step: 1, nurse: '+254700000003' }),
        babyNews({ baby: of.baby, news: 'handed-over', to: '+254700000009' }),
        ...[due({ baby: of.baby }), text(), audit(), sent, raised, examined],
      ];
      await harness().register.record(entries);
      await harness().register.record([...entries].reverse());
      const count = async (table: string, column: string, key: string) =>
        (await harness().database.query(`select from ${table} where ${column} = $1`, [key])).length;
      expect(await count('examinations', 'baby', of.baby)).toBe(1);
      expect(await count('babies', 'id', of.baby)).toBe(1);
      expect(await count('baby_history', 'baby', of.baby)).toBe(1);
      expect(await count('alerts', 'baby', of.baby)).toBe(1);
      expect(await count('alert_asks', 'alert', raised.key)).toBe(2);
      expect(await count('referral_history', 'referral', sent.key)).toBe(1);
      for (const entry of entries.slice(3, 6))
        expect(await count({ due: 'due_work', text: 'texts_out', audit: 'audit' }[entry.kind as 'due'], 'key', entry.key)).toBe(1);
    });

    it.each(['alert_history', 'alert_asks', 'referral_history', 'baby_history', 'audit'])(
      'in %s are never changed or deleted',
      async (table) => {
        const of = ofBaby();
        const sent = referral(of);
        await harness().register.record([alert(of), sent, referralNews({ referral: sent.key, news: 'left' }), audit()]);
        await harness().register.record([babyNews({ baby: of.baby, news: 'handed-over', to: '+254700000009' })]);
        for (const change of [`update ${table} set by = by`, `delete from ${table}`, `truncate ${table}`]) {
          const statement = table === 'alert_asks' ? change.replaceAll(' by', ' nurse') : change;
          await expect(harness().database.query(statement)).rejects.toThrow('Insert a further row instead');
        }
      },
    );

    it('may hold the same entry twice', async () => {
      const entry = examination();
      await harness().register.record([entry, entry]);
      expect(await rowsOf('examinations', entry.key)).toHaveLength(1);
    });

    it('may be none', async () => {
      await expect(harness().register.record([])).resolves.toBeUndefined();
    });

    it('are written all or none', async () => {
      const [good, bad] = [examination(), text({ at: Number.NaN })];
      await expect(harness().register.record([good, bad])).rejects.toThrow();
      expect(await rowsOf('examinations', good.key)).toEqual([]);
    });

    it('are written once when many processes bring them in different orders', async () => {
      const entries = [examination(), examination(), alert(), alert(), text(), text()];
      const orders = Array.from({ length: 10 }, (_, n) => [...entries.slice(n % 6), ...entries.slice(0, n % 6)]);
      await Promise.all(orders.map((order) => harness().register.record(order)));
      for (const { key } of entries.slice(0, 2)) expect(await rowsOf('examinations', key)).toHaveLength(1);
      for (const { key } of entries.slice(2, 4)) expect(await historyOf(key)).toHaveLength(1);
    });

    it.each([
      ['NUL', 'a\0b', 'ab'],
      ['half a surrogate pair', 'a\ud83d', 'a\ufffd'],
      ['an emoji', '👶🏿', '👶🏿'],
      ['a backslash before u0000', '\\u0000', '\\u0000'],
      ['10,000 characters', 'x'.repeat(10_000), 'x'.repeat(10_000)],
      ['SQL', "'); drop table alerts; --", "'); drop table alerts; --"],
    ])('keep %s in texts and bodies as far as a database can', async (_, sent, kept) => {
      const [message, raised] = [text({ text: sent }), alert({ body: { note: sent, [sent]: [sent] } })];
      await harness().register.record([message, raised]);
      expect(await rowsOf('texts_out', message.key)).toMatchObject([{ text: kept }]);
      expect((await harness().register.findAlerts(raised.code))[0]?.body).toEqual({ note: kept, [kept]: [kept] });
    });

    it.each([null, [], 0, 'text', true, JSON.parse('{"__proto__":{"polluted":true}}')])('give back the body %j as it was', async (body) => {
      const raised = alert({ body });
      await harness().register.record([raised]);
      const [found] = await harness().register.findAlerts(raised.code);
      expect(JSON.stringify(found?.body)).toBe(JSON.stringify(body));
    });
  });
}
