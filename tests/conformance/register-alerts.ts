// What every register promises of alerts: one open alert a baby, one taker, a history that tells it. Next: register-referrals.ts.

import { describe, expect, it } from 'vitest';
import { freshKey } from '../support/fresh-key.ts';
import { alert, asked, babyNews, noon, nurse, ofBaby, otherNurse, text } from './entries.ts';
import type { RegisterHarness } from './register.ts';

export function alertsConformance(store: string, harness: () => RegisterHarness): void {
  const rowsOf = (table: string, key: string) => harness().database.query(`select * from ${table} where key = $1`, [key]);
  const historyOf = (key: string) =>
    harness().database.query('select move, state_from, state_to, by, at from alert_history where alert = $1 order by move', [key]);

  describe(`alerts in ${store}`, () => {
    it('are found by their code, newest first, with instants as numbers', async () => {
      const code = freshKey('code');
      const [older, newer] = [alert({ code, at: noon }), alert({ code, at: noon + 1 })];
      await harness().register.record([older, newer, alert()]);
      const { kind: _, ...facts } = newer;
      const found = await harness().register.findAlerts(code);
      expect(found.map(({ key }) => key)).toEqual([newer.key, older.key]);
      expect(found[0]).toStrictEqual({ ...facts, asked: [facts.nurse], askedNow: [facts.nurse], state: 'open', takenBy: null });
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

    it('are taken again only by the one who has them', async () => {
      const raised = alert();
      const { register } = harness();
      await register.record([raised]);
      await register.moveAlert(raised.key, 'open', 'taken', nurse, noon, []);
      const [other, own] = [text(), text()];
      expect(await register.moveAlert(raised.key, 'taken', 'taken', otherNurse, noon, [other])).toBeNull();
      expect(await register.moveAlert(raised.key, 'taken', 'taken', nurse, noon, [own])).toMatchObject({ takenBy: nurse });
      expect(await rowsOf('texts_out', other.key)).toEqual([]);
      expect(await rowsOf('texts_out', own.key)).toHaveLength(1);
    });

    it('of a baby that has an open one join it: what is said of the baby now is the newest', async () => {
      const of = ofBaby();
      const [first, later, between] = [
        alert({ ...of, body: { n: 1 } }),
        alert({ ...of, at: noon + 2, body: { n: 3 } }),
        alert({ ...of, at: noon + 1, body: { n: 2 } }),
      ];
      for (const entry of [first, later, between, later]) await harness().register.record([entry]);
      expect(await harness().register.findAlerts(of.code)).toMatchObject([{ key: first.key, at: noon, body: { n: 3 } }]);
      expect(await historyOf(first.key)).toHaveLength(1);
      expect(await harness().database.query('select key from alert_news where alert = $1', [first.key])).toHaveLength(2);
    });

    it('of one baby that come at once are one alert, and none of them fails', async () => {
      const of = ofBaby();
      const entries = Array.from({ length: 8 }, () => alert(of));
      await Promise.all(entries.map((entry) => harness().register.record([entry])));
      expect(await harness().register.findAlerts(of.code)).toHaveLength(1);
      expect(
        await harness().database.query('select from alert_news as news join alerts on alerts.key = news.alert where baby = $1', [of.baby]),
      ).toHaveLength(7);
    });

    it('of a baby whose alert is closed are new ones, which joining again does not touch', async () => {
      const of = ofBaby();
      const { register } = harness();
      const [first, joined, second] = [alert(of), alert(of), alert({ ...of, at: noon + 1 })];
      await register.record([first]);
      await register.record([joined]);
      await register.moveAlert(first.key, 'open', 'closed', nurse, noon, []);
      await register.record([second]);
      await register.record([first]);
      await register.record([joined]);
      expect(await register.alertOf(of.baby)).toMatchObject({ key: second.key, asked: [nurse] });
      expect(await register.findAlerts(of.code)).toHaveLength(1);
    });

    it('are found by their baby while they are not closed', async () => {
      const raised = alert();
      const { register } = harness();
      expect(await register.alertOf(raised.baby)).toBeNull();
      await register.record([raised]);
      expect(await register.alertOf(raised.baby)).toMatchObject({ key: raised.key, baby: raised.baby });
      await register.moveAlert(raised.key, 'open', 'closed', nurse, noon, []);
      expect(await register.alertOf(raised.baby)).toBeNull();
    });

    it('tell who was asked, in order, and ask the last one, in whatever order that is written', async () => {
      const raised = alert();
      const { register } = harness();
      await register.record([raised]);
      const steps = ['+254700000021', '+254700000022', '+254700000023'];
      const [one, two, three] = steps.map((phone, n) => asked({ alert: raised.key, step: n + 1, nurse: phone }));
      for (const entry of [one, three, two, three]) if (entry) await register.record([entry]);
      expect(await register.alertOf(raised.baby)).toMatchObject({ nurse: steps[2], asked: [nurse, ...steps] });
    });

    it('tell who is asked now, the first of them by name, in whatever order that is written', async () => {
      const raised = alert();
      const { register } = harness();
      const phones = Array.from({ length: 12 }, (_, step) => `+2547000000${30 + step}`);
      const whys = phones.map((_, step) => (step === 3 ? 'not-taken' : step === 8 ? 'passed' : 'beside'));
      const steps = phones.flatMap((phone, step) =>
        step === 0 ? [] : [asked({ alert: raised.key, step, nurse: phone, why: whys[step] as 'beside' })],
      );
      const now = async () => {
        const found = await register.alertOf(raised.baby);
        return [found?.nurse, ...(found?.askedNow ?? [])];
      };
      await register.record([{ ...raised, nurse: phones[0] ?? '' }, ...steps.slice(0, 2)]);
      expect(await now()).toEqual([phones[0], ...phones.slice(0, 3)]);
      // All at once: by their keys, step 10 is written before step 8.
      await register.record(steps.slice(2).reverse());
      expect(await now()).toEqual([phones[8], ...phones.slice(8)]);
    });

    it('move and ask the next in one go, and are given back as they stand then', async () => {
      const raised = alert();
      const { register } = harness();
      await register.record([raised]);
      const next = asked({ alert: raised.key, step: 1, nurse: otherNurse, why: 'passed' });
      expect(await register.moveAlert(raised.key, 'open', 'open', nurse, noon + 1, [next])).toMatchObject({
        nurse: otherNurse,
        asked: [nurse, otherNurse],
      });
    });

    it('that nobody raised are not asked about, and nothing fails', async () => {
      await expect(harness().register.record([asked({ alert: freshKey('alert'), step: 1, nurse })])).resolves.toBeUndefined();
    });

    it('are closed when their baby dies, whoever has them', async () => {
      const of = ofBaby();
      const raised = alert(of);
      const { register } = harness();
      await register.record([raised]);
      await register.moveAlert(raised.key, 'open', 'taken', nurse, noon, []);
      await register.record([babyNews({ baby: of.baby, news: 'died', by: '+254700000001', at: noon + 5 })]);
      expect(await register.alertOf(of.baby)).toBeNull();
      expect((await historyOf(raised.key)).at(-1)).toEqual({
        move: 2,
        state_from: 'taken',
        state_to: 'closed',
        by: '+254700000001',
        at: noon + 5,
      });
    });
  });
}
