// Stormy district-days of a few seeds: stores, gateways and processes fail under a seed, and what must hold holds after every change of
// the register. Five files beside this one live two hundred days each, so that the runner can share them out; `npm run storms` lives as
// many as it is told. A seed that breaks is lived again, exactly, by `npm run storms -- --seed N --days 10`.

import { describe, expect, it } from 'vitest';
import { live, smallDistrict } from '../district-days.ts';

const days = 200;
const patience = 300_000;

export function liveThroughStorms(firstSeed: number): void {
  const seeds = Array.from({ length: days / smallDistrict.days }, (_, n) => firstSeed + n);
  describe('stormy days of a small district', () => {
    it.each(seeds)(
      'break nothing (seed %i)',
      async (seed) => {
        const { broken, brokeAt, figures, happened } = await live({ ...smallDistrict, seed });
        expect({ broken, brokeAt }).toEqual({ broken: [], brokeAt: null });
        expect(figures.finished).toBeGreaterThan(0);
        expect(happened['processes killed']).toBeGreaterThan(0);
      },
      patience,
    );
  });
}
