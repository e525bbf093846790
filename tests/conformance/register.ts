// What every register promises of entries and alerts, as one suite; register-texts.ts has the texts.
// Next: register-pglite.test.ts, register-postgres.test.ts.

import { describe, expect, it } from 'vitest';
import type { Register } from '../../src/conversation/ports.ts';
import type { Database } from '../../src/register/database.ts';
import { freshKey } from '../support/fresh-key.ts';
import { alert, examination, noon, text } from './entries.ts';

export interface RegisterHarness {
  readonly register: Register;
  /** For what the port does not show: rows that must not be there, and rows that nobody may change. */
  readonly database: Database;
}

const nurse = '+254700000002';
const otherNurse = '+254700000003';

export function registerConformance(store: string, harness: () => RegisterHarness): void {
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

  describe(`alerts in ${store}`, () => {
    it('are found by their code, newest first, with instants as numbers', async () => {
      const code = freshKey('code');
      const [older, newer] = [alert({ code, at: noon }), alert({ code, at: noon + 1 })];
      await harness().register.record([older, newer, alert()]);
      const { kind: _, ...facts } = newer;
      const found = await harness().register.findAlerts(code);
      expect(found.map(({ key }) => key)).toEqual([newer.key, older.key]);
      expect(found[0]).toStrictEqual({ ...facts, state: 'open', takenBy: null });
    });

    it('are not found once closed', async () => {
      const raised = alert();
      await harness().register.record([raised]);
      await harness().register.moveAlert(raised.key, 'open', 'closed', nurse, noon, []);
      expect(await harness().register.findAlerts(raised.code)).toEqual([]);
    });

    it('are taken, given back, taken by another and closed, and their history tells it', async () => {
      const raised = alert();
      const { register } = harness();
      await register.record([raised]);
      expect(await register.moveAlert(raised.key, 'open', 'taken', nurse, noon + 1, [])).toMatchObject({ state: 'taken', takenBy: nurse });
      expect(await register.moveAlert(raised.key, 'taken', 'open', nurse, noon + 2, [])).toMatchObject({ state: 'open', takenBy: null });
      expect(await register.moveAlert(raised.key, 'open', 'taken', otherNurse, noon + 3, [])).toMatchObject({ takenBy: otherNurse });
      expect(await register.moveAlert(raised.key, 'taken', 'closed', nurse, noon + 4, [])).toMatchObject({
        state: 'closed',
        takenBy: otherNurse,
      });
      expect(await historyOf(raised.key)).toEqual([
        { move: 0, state_from: null, state_to: 'open', by: raised.worker, at: noon },
        { move: 1, state_from: 'open', state_to: 'taken', by: nurse, at: noon + 1 },
        { move: 2, state_from: 'taken', state_to: 'open', by: nurse, at: noon + 2 },
        { move: 3, state_from: 'open', state_to: 'taken', by: otherNurse, at: noon + 3 },
        { move: 4, state_from: 'taken', state_to: 'closed', by: nurse, at: noon + 4 },
      ]);
    });

    it('go to exactly one of ten nurses, and only her texts are written', async () => {
      const raised = alert();
      await harness().register.record([raised]);
      const replies = Array.from({ length: 10 }, () => text());
      const moves = await Promise.all(
        replies.map((reply, n) => harness().register.moveAlert(raised.key, 'open', 'taken', `+2547000001${n}`, noon, [reply])),
      );
      const winner = moves.findIndex((moved) => moved !== null);
      expect(moves.filter((moved) => moved !== null)).toHaveLength(1);
      expect(moves[winner]?.takenBy).toBe(`+2547000001${winner}`);
      const written = await Promise.all(replies.map(({ key }) => rowsOf('texts_out', key)));
      expect(written.map((rows) => rows.length)).toEqual(replies.map((_, n) => (n === winner ? 1 : 0)));
    });

    it('do not move when what goes with the move cannot be written', async () => {
      const raised = alert();
      await harness().register.record([raised]);
      const move = harness().register.moveAlert(raised.key, 'open', 'taken', nurse, noon, [text({ at: Number.NaN })]);
      await expect(move).rejects.toThrow();
      expect(await harness().register.findAlerts(raised.code)).toMatchObject([{ state: 'open' }]);
      expect(await historyOf(raised.key)).toHaveLength(1);
    });

    it('that nobody raised do not move', async () => {
      expect(await harness().register.moveAlert(freshKey('alert'), 'open', 'taken', nurse, noon, [])).toBeNull();
    });

    it.each(['update alert_history set by = by', 'delete from alert_history', 'truncate alert_history'])(
      'have a history that refuses: %s',
      async (statement) => {
        await harness().register.record([alert()]);
        await expect(harness().database.query(statement)).rejects.toThrow('Insert a further row instead');
      },
    );
  });
}
