// The worked examples of the assess contract. Source: this project's own contract; the babies are invented.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readCase } from '../../src/authoring/read-case.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

interface Example {
  number: number;
  input: string;
  urgency: string;
  classifications: string[];
  missing: string[] | { 'danger-findings-but': string[] };
}

const { examples } = parse(readFileSync(new URL('worked-examples.yaml', import.meta.url), 'utf8')) as { examples: Example[] };

/** Every danger finding once; touch answers for temperature. */
const dangerFindings = defaultProtocol.findings
  .filter((finding) => finding.danger && finding.insteadOf === undefined)
  .map((finding) => finding.id);

describe('a worked example of the contract', () => {
  it.each(examples)('$number comes out as $urgency', ({ input, urgency, classifications, missing }) => {
    const read = readCase(JSON.parse(input), defaultProtocol);
    if (read.kind === 'faulty') throw new Error(JSON.stringify(read.faults));
    const result = interpret(defaultProtocol, read.case);
    expect(result.urgency).toBe(urgency);
    expect(result.classifications.map((one) => one.id).sort()).toEqual([...classifications].sort());
    const wanted = Array.isArray(missing) ? missing : dangerFindings.filter((id) => !missing['danger-findings-but'].includes(id));
    expect([...result.missing].sort()).toEqual([...wanted].sort());
  });

  it('finds twenty-two danger findings, touch counted with temperature', () => {
    expect(dangerFindings).toHaveLength(22);
  });
});
