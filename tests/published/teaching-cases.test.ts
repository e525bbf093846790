// Published teaching cases as the safety floor. Source: Bettercare learning books, South Africa; chapter and case stand
// beside each case in flows/reference-cases/teaching.json.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCase } from '../../src/authoring/read-case.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import { defaultProtocol, flowsFolder } from '../support/default-protocol.ts';

interface TeachingCase {
  id: string;
  title: string;
  source: string;
  input: unknown;
  expected: { urgency: string; classifications: string[]; rows: string[] };
}

const { cases } = JSON.parse(readFileSync(`${flowsFolder}/reference-cases/teaching.json`, 'utf8')) as { cases: TeachingCase[] };

describe('a published teaching case', () => {
  it.each(cases)('$id "$title" comes out as its book says ($source)', ({ input, expected }) => {
    const read = readCase(input, defaultProtocol);
    if (read.kind === 'faulty') throw new Error(JSON.stringify(read.faults));
    const result = interpret(defaultProtocol, read.case);
    expect(result.urgency).toBe(expected.urgency);
    expect(result.classifications.map((one) => one.id)).toEqual(expect.arrayContaining(expected.classifications));
    expect(result.classifications.flatMap((one) => one.rows)).toEqual(expect.arrayContaining(expected.rows));
  });

  it('has its source beside it', () => {
    expect(cases.filter((one) => !one.source.startsWith('Bettercare, '))).toEqual([]);
    expect(cases).toHaveLength(20);
  });
});
