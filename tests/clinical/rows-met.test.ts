// Each row of the clinical reference that no reference case names, met by a baby of rows-met.yaml. Sources: as cited by the
// rows in flows/protocol/rows.yaml.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readCase } from '../../src/authoring/read-case.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import type { Interpretation } from '../../src/clinical/protocol.ts';
import { defaultProtocol, wellBut } from '../support/default-protocol.ts';

type Findings = Record<string, never>;
type Fields = Record<string, never>;

const table = parse(readFileSync(new URL('rows-met.yaml', import.meta.url), 'utf8')) as {
  normal: [row: string, findings: Findings, fields?: Fields][];
  gives: [row: string, classification: string, findings: Findings, fields?: Fields][];
  rechecks: [row: string, classification: string, recheck: string, findings: Findings, fields?: Fields][];
  not: [row: string, classification: string, findings: Findings, fields?: Fields][];
  needs: [row: string, finding: string, findings: Findings, fields?: Fields][];
  advises: [row: string, advice: string, findings: Findings, fields?: Fields][];
  computes: [row: string, path: string, value: unknown, findings: Findings, fields?: Fields][];
};

/** Read as `assess` reads it, so that a finding that is not known fails the test. */
function interpreted(findings: Findings, fields: Fields = {}): Interpretation {
  const read = readCase(wellBut(findings, fields), defaultProtocol);
  if (read.kind === 'faulty') throw new Error(JSON.stringify(read.faults));
  return interpret(defaultProtocol, read.case);
}

const rulesNaming = (row: string): string[] =>
  defaultProtocol.classifications
    .filter((rule) => [...rule.rows, ...[...rule.rules, ...rule.raised].flatMap((one) => one.rows)].includes(row))
    .map((rule) => rule.id);

describe('a baby who meets', () => {
  it.each(table.normal)('%s with %j is normal, and the result names the row', (row, findings, fields) => {
    const { urgency, classifications } = interpreted(findings, fields);
    expect(urgency).toBe('routine');
    expect(classifications.flatMap(({ id, rows }) => (id === 'well-baby' || id === 'normal-variant' ? rows : []))).toContain(row);
  });

  it.each(table.gives)('%s is given %s', (row, classification, findings, fields) => {
    const given = interpreted(findings, fields).classifications.find(({ id }) => id === classification);
    expect(given).toBeDefined();
    if (rulesNaming(row).includes(classification)) expect(given?.rows).toContain(row);
  });

  it.each(table.rechecks)('%s is given %s, and looked at again after %s', (_row, classification, recheck, findings, fields) => {
    const given = interpreted(findings, fields).classifications.find(({ id }) => id === classification);
    expect(given?.recheck).toBe(recheck);
  });

  it.each(table.not)('%s is not given %s', (_row, classification, findings, fields) => {
    expect(interpreted(findings, fields).classifications.map(({ id }) => id)).not.toContain(classification);
  });

  it.each(table.needs)('%s still needs %s', (_row, finding, findings, fields) => {
    expect(interpreted(findings, fields).missing).toContain(finding);
  });

  it.each(table.advises)('%s is told %s, which carries the row', (row, advice, findings, fields) => {
    const key = `advice.${advice}`;
    expect(defaultProtocol.advice.find((one) => one.key === key)?.rows).toContain(row);
    expect(interpreted(findings, fields).advice).toContain(key);
  });

  it.each(table.computes)('%s has %s %j', (_row, path, value, findings, fields) => {
    const found = path
      .split('.')
      .reduce<unknown>(
        (inside, key) => (inside as Record<string, unknown> | null | undefined)?.[key],
        interpreted(findings, fields).computed,
      );
    expect(found ?? null).toEqual(value);
  });
});

describe('a first dose at any weight', () => {
  const weights = Array.from({ length: 121 }, (_, i) => 300 + i * 60);
  it.each([
    ['ABX-40', 'gentamicin', 'bands-imci19', 24, 7.5],
    ['ABX-40', 'gentamicin', 'bands-imci14', 32, 9],
    ['ABX-42', 'ampicillin', 'bands-imci19', 300, 100],
    ['ABX-42', 'ampicillin', 'bands-imci14', 300, 100],
  ])('stays under the hard stop of %s: %s, %s', (_row, drug, option, most, mostPerKg) => {
    const amounts = weights.flatMap((birthWeightGrams) => {
      const fields = { ageHours: 200, birthWeightGrams, weightGrams: birthWeightGrams, switches: { 'gentamicin-table': option } };
      const { doses } = interpreted({ temperature: [38] } as never, fields as never).computed as {
        doses: { drug: string; amount: number | null; withheld?: string }[];
      };
      return doses.filter((dose) => dose.drug === drug).map(({ amount, withheld }) => ({ kg: birthWeightGrams / 1000, amount, withheld }));
    });
    const shown = amounts.filter(({ withheld }) => withheld === undefined);
    expect(shown.length).toBeGreaterThan(50);
    expect(shown.filter(({ kg, amount }) => amount === null || amount > most || amount > mostPerKg * kg)).toEqual([]);
  });
});
