// Planted faults are found by stormy days: what the days say of the code as it is means something. The rarer ones are left to
// `npm run planted`.

import { describe, expect, it } from 'vitest';
import { plantedFaults } from './planted.ts';
import { find } from './planted-faults.ts';

const longest = 300;

describe('a fault planted in a copy of the code is found', () => {
  it.each(plantedFaults.filter(({ isRare }) => isRare !== true).map((planted) => [planted.what, planted] as const))(
    '%s',
    async (_, planted) => {
      expect(await find(planted, longest)).not.toBeNull();
    },
    600_000,
  );
});
