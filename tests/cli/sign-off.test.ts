// What must be signed off: every row from memory or of our own choice, none that was read in its source alone.

import { describe, expect, it } from 'vitest';
import { rowsToSignOff } from '../../src/cli/sign-off.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

describe('the list to sign off', () => {
  const rows = rowsToSignOff(defaultProtocol);

  it('holds every row that is not proved by its source, with what it says of itself', () => {
    const unproved = [...defaultProtocol.rows].filter(([, { proof }]) => proof.some((one) => one !== 'seen')).map(([row]) => row);
    expect(rows.map(({ row }) => row)).toEqual(unproved);
    expect(rows.filter(({ source }) => source === '')).toEqual([]);
  });

  it('says where a row is used', () => {
    expect(rows.find(({ row }) => row === 'RESP-24')?.usedBy).toContain('classification nasal-flaring');
    expect(rows.find(({ row }) => row === 'RESP-01')).toBeUndefined();
  });
});
