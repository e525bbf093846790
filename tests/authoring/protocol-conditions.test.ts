// The language of conditions, from the examples in protocol-conditions.yaml.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readCondition } from '../../src/authoring/read-condition.ts';
import { readYaml } from '../../src/authoring/yaml-source.ts';
import { loadProtocol } from '../../src/cli/load-protocol.ts';
import { holds } from '../../src/clinical/condition.ts';
import type { Value } from '../../src/clinical/value.ts';
import { flowsFolder } from '../support/default-protocol.ts';

type Terms = Record<string, Value>;
interface Valid {
  write: unknown;
  holds: Terms[];
  not: Terms[];
}
interface Invalid {
  write: unknown;
  code: string;
  at?: string;
  fix?: string;
}

const { valid, invalid } = parse(readFileSync(new URL('protocol-conditions.yaml', import.meta.url), 'utf8')) as {
  valid: Valid[];
  invalid: Invalid[];
};
const { read: loaded } = loadProtocol(`${flowsFolder}/protocol`);
if (loaded.kind === 'faulty') throw new Error('The protocol in flows/protocol cannot be read.');

function read(write: unknown) {
  const diagnostics: Diagnostic[] = [];
  const text = stringify(write, { lineWidth: 0 });
  const top = readYaml({ name: 'example.yaml', text }, (one) => diagnostics.push(one));
  if (top === null || loaded.kind === 'faulty') throw new Error(text);
  return { text, diagnostics, condition: readCondition(top, loaded.vocabulary, (one) => diagnostics.push(one)) };
}

describe('a condition', () => {
  it.each(valid.map((one) => [JSON.stringify(one.write), one] as const))(
    '%s holds where it says',
    (_write, { write, holds: where, not }) => {
      const { condition, diagnostics } = read(write);
      expect(diagnostics).toEqual([]);
      if (condition === null) throw new Error('not read');
      for (const terms of where)
        expect(
          holds(condition, (term) => terms[term]),
          JSON.stringify(terms),
        ).toBe(true);
      for (const terms of not)
        expect(
          holds(condition, (term) => terms[term]),
          JSON.stringify(terms),
        ).toBe(false);
    },
  );

  it.each(invalid.map((one) => [JSON.stringify(one.write), one.code, one] as const))(
    '%s is refused as %s',
    (_write, code, { write, at, fix }) => {
      const { condition, diagnostics, text } = read(write);
      expect(condition).toBeNull();
      expect(diagnostics.map((one) => one.code)).toEqual([code]);
      const [diagnostic] = diagnostics;
      if (diagnostic === undefined) throw new Error('no diagnostic');
      if (fix !== undefined) expect(diagnostic.fix).toBe(fix);
      if (at !== undefined) {
        const line = text.split('\n')[diagnostic.range.start.line - 1] ?? '';
        expect(line.slice(diagnostic.range.start.column - 1, diagnostic.range.end.column - 1)).toBe(at);
      }
    },
  );
});
