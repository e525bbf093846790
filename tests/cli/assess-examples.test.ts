// The worked examples of the assess contract through `pipit assess`: alone, in one array and one a line, with the same result.
// What they must come out as is also tested on the interpretation itself, in tests/clinical/worked-examples.test.ts.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { runAssess } from '../../src/cli/assess.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

interface Example {
  number: number;
  input: string;
  urgency: string;
  classifications: string[];
  missing: string[] | { 'danger-findings-but': string[] };
}

interface Result {
  id?: number;
  urgency: string;
  classifications: { id: string }[];
  missing: string[];
}

const { examples } = parse(readFileSync(new URL('../clinical/worked-examples.yaml', import.meta.url), 'utf8')) as { examples: Example[] };
const dangerFindings = defaultProtocol.findings.filter(({ danger, insteadOf }) => danger && insteadOf === undefined).map(({ id }) => id);

const protocol = { kind: 'protocol', protocol: defaultProtocol } as const;

function run(stdin: string, lines = false): string {
  const { stdout, stderr, exitCode } = runAssess(stdin, { protocol, lines });
  expect({ stderr, exitCode }).toEqual({ stderr: '', exitCode: 0 });
  return stdout;
}

const named = examples.map(({ number, input }) => `{"id":${number},${input.slice(1)}`);

describe('the worked examples, piped in', () => {
  it('are twelve', () => {
    expect(examples.map(({ number }) => number)).toEqual(Array.from({ length: 12 }, (_, i) => i + 1));
  });

  it.each(examples)('$number comes out as $urgency', ({ input, urgency, classifications, missing }) => {
    const result = JSON.parse(run(input)) as Result;
    const wanted = Array.isArray(missing) ? missing : dangerFindings.filter((id) => !missing['danger-findings-but'].includes(id));
    expect(result.urgency).toBe(urgency);
    expect(result.classifications.map(({ id }) => id).sort()).toEqual([...classifications].sort());
    expect([...result.missing].sort()).toEqual([...wanted].sort());
  });

  it('come out of an array in the same order as alone', () => {
    const alone = named.map((input) => JSON.parse(run(input)) as Result);
    expect(JSON.parse(run(`[${named.join(',')}]`))).toEqual(alone);
    expect(alone.map(({ id }) => id)).toEqual(examples.map(({ number }) => number));
  });

  it('come out of lines one a line, as alone', () => {
    const alone = named.map((input) => JSON.parse(run(input)) as Result);
    const lines = run(`${named.join('\n')}\n`, true)
      .trimEnd()
      .split('\n');
    expect(lines.map((line) => JSON.parse(line) as Result)).toEqual(alone);
  });
});
