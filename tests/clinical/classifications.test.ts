// What gives each classification, from flows/reference-cases/classifications.yaml: one baby a line, with the rows that name the source.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readCase } from '../../src/authoring/read-case.ts';
import { babyOf } from '../../src/authoring/reference-baby.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

interface Line {
  given: string;
  urgency: string;
  findings: Record<string, unknown>;
  rows?: string[];
  recheck?: string;
  within?: string;
  not?: string[];
  missing?: string[];
  age?: number | null;
  sex?: string;
  weeks?: number | null;
  days?: number;
  'birth-weight'?: number | null;
  weight?: number | null;
  switches?: Record<string, string>;
}

const { cases } = parse(readFileSync(new URL('../../flows/reference-cases/classifications.yaml', import.meta.url), 'utf8')) as {
  cases: Line[];
};

describe('a classification', () => {
  it.each(
    cases.map((line) => [line.given, line.urgency, JSON.stringify({ age: line.age, ...line.findings, ...line.switches }), line] as const),
  )('%s is %s for %s', (_given, _urgency, _findings, line) => {
    const read = readCase(babyOf(line), defaultProtocol);
    if (read.kind === 'faulty') throw new Error(JSON.stringify(read.faults));
    const result = interpret(defaultProtocol, read.case);
    const ids = result.classifications.map((one) => one.id);
    expect(ids).toContain(line.given);
    const given = result.classifications.find((one) => one.id === line.given);
    expect(given?.urgency).toBe(line.urgency);
    expect(given?.rows).toEqual(expect.arrayContaining(line.rows ?? []));
    if (line.recheck !== undefined) expect(given?.recheck).toBe(line.recheck);
    if (line.within !== undefined) expect(given?.within).toBe(line.within);
    for (const other of line.not ?? []) expect(ids).not.toContain(other);
    expect(result.missing).toEqual(line.missing ?? []);
  });

  it('stands in the table at least once, whichever it is', () => {
    const shown = new Set(cases.map((line) => line.given));
    const edges = readFileSync(new URL('vital-sign-edges.yaml', import.meta.url), 'utf8');
    expect(defaultProtocol.classifications.map((rule) => rule.id).filter((id) => !shown.has(id) && !edges.includes(id))).toEqual([]);
  });
});
