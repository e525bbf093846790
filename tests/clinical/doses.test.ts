// Doses, feed volumes and next contacts as the tables print them, from doses.yaml; and the hard stops for any weight.

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { NextContact } from '../../src/clinical/contacts.ts';
import type { Dose } from '../../src/clinical/doses.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import type { Case, FindingValue } from '../../src/clinical/protocol.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

interface Baby {
  weight?: number | null;
  age?: number | null;
  findings?: Record<string, FindingValue>;
  switches?: Record<string, string>;
}
type DoseLine = Baby & { drug: string; amount?: number; millilitres?: number | null; row?: string; withheld?: string };

const tables = parse(readFileSync(new URL('doses.yaml', import.meta.url), 'utf8')) as {
  doses: DoseLine[];
  none: DoseLine[];
  feeds: (Baby & { perFeed: number; perDay: number; row: string })[];
  contacts: (Baby & { next: string[] })[];
};

function computed(baby: Baby): { doses: Dose[]; feedVolume: unknown; nextContacts: NextContact[] } {
  const weight = baby.weight === undefined ? 3200 : baby.weight;
  const aCase: Case = {
    ageHours: baby.age === undefined ? 30 : baby.age,
    birthWeightGrams: weight,
    weightGrams: weight,
    unlisted: 'normal',
    findings: baby.findings ?? {},
    ...(baby.switches ? { switches: baby.switches } : {}),
  };
  return interpret(defaultProtocol, aCase).computed as ReturnType<typeof computed>;
}

describe('a dose', () => {
  it.each(tables.doses.map((line) => [line.drug, line.weight, JSON.stringify({ ...line.findings, ...line.switches }), line] as const))(
    'of %s at %s g for %s is as printed',
    (drug, _weight, _for, line) => {
      const dose = computed(line).doses.find((one) => one.drug === drug);
      if (line.withheld !== undefined) expect(dose).toMatchObject({ amount: null, millilitres: null, withheld: line.withheld });
      else expect(dose).toMatchObject({ amount: line.amount, millilitres: line.millilitres ?? null, row: line.row });
    },
  );

  it.each(tables.none.map((line) => [line.drug, JSON.stringify(line.findings), line] as const))(
    'of %s is not shown for %s',
    (drug, _findings, line) => {
      expect(computed(line).doses.map((one) => one.drug)).not.toContain(drug);
    },
  );

  it.each([
    ['bands-imci19', 7.5, 24],
    ['bands-imci14', 9, 32],
  ] as const)('of gentamicin under %s stays at or below %s mg/kg and %s mg at any weight', (table, perKg, most) => {
    fc.assert(
      fc.property(fc.integer({ min: 300, max: 8000 }), fc.constantFrom(10, 167.9, 168, 900), (weight, age) => {
        const dose = computed({ weight, age, findings: { feeding: 'not-at-all' }, switches: { 'gentamicin-table': table } }).doses.find(
          (one) => one.drug === 'gentamicin',
        );
        const amount = dose?.amount ?? 0;
        expect(amount).toBeLessThanOrEqual(Math.min(most, (perKg * weight) / 1000));
      }),
    );
  });
});

describe('the feed volume', () => {
  it.each(tables.feeds.map((line) => [line.weight, line.age, line] as const))('at %s g and %s h is as printed', (_weight, _age, line) => {
    expect(computed(line).feedVolume).toMatchObject({ mlPerFeed: line.perFeed, mlPerDay: line.perDay, row: line.row });
  });
});

describe('the next contacts', () => {
  it.each(tables.contacts.map((line) => [line.age, line.next.join(', '), line] as const))('at %s h are %s', (_age, _next, line) => {
    expect(computed(line).nextContacts.map((one) => one.contact)).toEqual(line.next);
  });
});
