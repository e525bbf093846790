// Published teaching cases as the safety floor. Source: Bettercare learning books, South Africa; chapter and case stand
// beside each case in flows/reference-cases/teaching.yaml.

import { describe, expect, it } from 'vitest';
import { interpret } from '../../src/clinical/interpret.ts';
import { defaultProtocol } from '../support/default-protocol.ts';
import { referenceCases } from '../support/reference-cases.ts';

const cases = referenceCases.filter((one) => one.place.file.endsWith('/teaching.yaml'));

describe('a published teaching case', () => {
  it.each(cases)('$id "$title" comes out as its book says ($source)', ({ input, expected, rows }) => {
    const result = interpret(defaultProtocol, input);
    expect(result.urgency).toBe(expected.urgency);
    expect(result.classifications.map((one) => one.id)).toEqual(expect.arrayContaining(expected.classifications.map(({ id }) => id)));
    expect(result.classifications.flatMap((one) => one.rows)).toEqual(expect.arrayContaining([...rows]));
  });

  it('has its source beside it', () => {
    expect(cases.filter((one) => !one.source?.startsWith('Bettercare, '))).toEqual([]);
    expect(cases).toHaveLength(20);
  });
});
