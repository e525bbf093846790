// Every reference case (flows/reference-cases) comes out exactly as it says: not only no less urgent, which the safety floor
// sees to, but no more urgent either, and with the rows that name the published source.

import { describe, expect, it } from 'vitest';
import { interpret } from '../../src/clinical/interpret.ts';
import type { ClassificationRule } from '../../src/clinical/protocol.ts';
import { defaultProtocol } from '../support/default-protocol.ts';
import { referenceCases } from '../support/reference-cases.ts';

const rules = new Map(defaultProtocol.classifications.map((rule) => [rule.id, rule]));

function rowsThatItCanMeet(rule: ClassificationRule | undefined): readonly string[] {
  return rule === undefined ? [] : [...rule.rows, ...[...rule.rules, ...rule.raised].flatMap((one) => one.rows)];
}

describe('a reference case', () => {
  it.each(referenceCases.map((one) => [one.id, one.title, one] as const))('%s, "%s", comes out as it says', (_id, _title, one) => {
    const { expected, input, rows, source } = one;
    const result = interpret(defaultProtocol, input);
    const given = new Map(result.classifications.map((each) => [each.id, each]));
    expect(result.urgency).toBe(expected.urgency);
    expect([...given.keys()]).toEqual(expect.arrayContaining(expected.classifications.map(({ id }) => id)));
    for (const { id, urgency } of expected.classifications) if (urgency !== null) expect(given.get(id)?.urgency, id).toBe(urgency);
    for (const other of expected.not) expect([...given.keys()]).not.toContain(other);
    const first = given.get(expected.classifications[0]?.id ?? '');
    if (expected.recheck !== undefined) expect(first?.recheck).toBe(expected.recheck);
    if (expected.within !== undefined) expect(first?.within).toBe(expected.within);
    // A book does not say what it leaves out.
    if (source === undefined) expect(result.missing).toEqual(expected.missing);
    const canBeMet = expected.classifications.flatMap(({ id }) => rowsThatItCanMeet(rules.get(id)));
    const met = result.classifications.flatMap((each) => each.rows);
    expect(met).toEqual(expect.arrayContaining(rows.filter((row) => canBeMet.includes(row))));
  });

  it('stands for each classification at least once', () => {
    const shown = new Set(referenceCases.flatMap((one) => one.expected.classifications.map(({ id }) => id)));
    expect([...rules.keys()].filter((id) => !shown.has(id))).toEqual([]);
  });

  it('stands for each option of each switch that a classification asks about', () => {
    const chosen = new Set(referenceCases.flatMap((one) => Object.entries(one.input.switches ?? {}).map((set) => set.join(' '))));
    const forCareOnly = ['gentamicin-table', 'syphilis-dose', 'isoniazid-dose', 'cord-chlorhexidine', 'vitamin-k-small-baby'];
    const never = [...defaultProtocol.switches.values()]
      .filter(({ id }) => ![...forCareOnly, 'contact-schedule', 'feed-volume-table'].includes(id))
      .flatMap(({ id, options }) => options.slice(1).map((option) => `${id} ${option}`));
    expect(never.filter((set) => !chosen.has(set))).toEqual([]);
  });
});
