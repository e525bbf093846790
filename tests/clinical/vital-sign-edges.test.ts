// Both sides of every line of the vital signs, from vital-sign-edges.yaml, where the sources stand beside the values.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { interpret } from '../../src/clinical/interpret.ts';
import type { FindingValue } from '../../src/clinical/protocol.ts';
import { defaultProtocol, wellBut } from '../support/default-protocol.ts';

type Row = [value: FindingValue, ageHours: number, urgency: string, classifications: string[]];
const { edges } = parse(readFileSync(new URL('vital-sign-edges.yaml', import.meta.url), 'utf8')) as {
  edges: { finding: string; source: string; table: Row[] }[];
};

const isTold = (id: string): boolean => {
  const rule = defaultProtocol.classifications.find((one) => one.id === id);
  return rule !== undefined && !rule.box && rule.givenTo === 'any-baby';
};

describe.each(edges)('$finding ($source)', ({ finding, table }) => {
  it.each(table)('of %j at %s h is %s', (value, ageHours, urgency, classifications) => {
    const result = interpret(defaultProtocol, wellBut({ [finding]: value }, { ageHours }));
    expect(result.urgency).toBe(urgency);
    expect(result.classifications.map((one) => one.id).filter(isTold)).toEqual(classifications);
  });
});
