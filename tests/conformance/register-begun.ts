// What every register promises of examinations that were begun: each is looked at until it has ended or was given up.
// Next: register-suites.ts.

import { describe, expect, it } from 'vitest';
import { begun, examination, HOUR, noon } from './entries.ts';
import type { RegisterHarness } from './register.ts';

export function begunConformance(store: string, harness: () => RegisterHarness): void {
  const dueOf = async (keys: readonly string[], at: number) =>
    (await harness().register.begunDue(at, 1000)).filter(({ key }) => keys.includes(key)).map(({ key }) => key);
  const rowOf = (key: string) => harness().database.query('select state, step from begun where key = $1', [key]);

  describe(`examinations that were begun in ${store}`, () => {
    it('are looked at when they are due, oldest first, and written once', async () => {
      const [late, soon] = [begun({ lookAt: noon + HOUR }), begun({ lookAt: noon })];
      await harness().register.record([late, soon]);
      await harness().register.record([
        { ...late, flow: 'another' },
        { ...soon, lookAt: noon + 9 * HOUR },
      ]);
      const keys = [late, soon].map(({ key }) => key);
      expect(await dueOf(keys, noon - 1)).toEqual([]);
      expect(await dueOf(keys, noon + HOUR)).toEqual([soon.key, late.key]);
      const { kind: _kind, lookAt: _lookAt, ...record } = late;
      expect(await harness().register.begunDue(noon + HOUR, 1000)).toContainEqual(record);
    });

    it('have ended when they are in the register, whichever came first', async () => {
      const [first, second] = [examination(), examination()];
      const [one, other] = [begun({ examination: first.key, lookAt: noon }), begun({ examination: second.key, lookAt: noon })];
      await harness().register.record([first]);
      await harness().register.record([one, other]);
      await harness().register.record([second]);
      expect(await dueOf([one.key, other.key], noon)).toEqual([]);
      await harness().register.settleBegun(one.key, { kind: 'given-up', step: 'danger' });
      for (const { key } of [one, other]) expect(await rowOf(key)).toEqual([{ state: 'ended', step: null }]);
    });

    it.each(['danger', null])('are given up once, at the step %j', async (step) => {
      const one = begun({ lookAt: noon });
      await harness().register.record([one]);
      await harness().register.settleBegun(one.key, { kind: 'again', at: noon + HOUR });
      expect(await dueOf([one.key], noon)).toEqual([]);
      expect(await dueOf([one.key], noon + HOUR)).toEqual([one.key]);
      await harness().register.settleBegun(one.key, { kind: 'given-up', step });
      await harness().register.settleBegun(one.key, { kind: 'given-up', step: 'another' });
      expect(await dueOf([one.key], noon + 9 * HOUR)).toEqual([]);
      expect(await rowOf(one.key)).toEqual([{ state: 'given-up', step }]);
    });
  });
}
