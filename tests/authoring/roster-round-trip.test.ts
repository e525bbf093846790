// What is written as tables is read back as it was, whatever names people have, and no cell is a formula to a spreadsheet.
// Signs that begin a formula: OWASP Application Security Verification Standard 5.0, requirement 1.2.10; the double-width ones
// from memory.

import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { guardFormula, unguardFormula } from '../../src/authoring/spreadsheet-formula.ts';
import { writeRoster } from '../../src/authoring/write-roster.ts';
import { sourceOf } from '../../src/cli/load-files.ts';
import { loadRoster } from '../../src/cli/load-roster.ts';
import type { RosterData } from '../../src/conversation/roster.ts';
import { flowsFolder } from '../support/default-protocol.ts';
import { read, sound } from './roster-tables.ts';

const known = read(sound).data;
const formula = /^[=+\-@\t\r\n＝＋－＠]/;

/** The sound roster with this name for its first person and its first facility. */
function named(name: string): RosterData {
  const [person, ...people] = known.people;
  const [facility, ...facilities] = known.facilities;
  if (person === undefined || facility === undefined) throw new Error('The sound roster is empty.');
  return { ...known, people: [{ ...person, name }, ...people], facilities: [{ ...facility, name }, ...facilities] };
}

const nameLike = fc
  .string({ unit: fc.constantFrom(...`=+-@'", .Aé\u0905＝`, 'Akinyi'), minLength: 1, maxLength: 12 })
  .map((name) => name.trim())
  .filter((name) => name !== '' && [...name].length <= 40);

describe('a roster written as tables', () => {
  it('is read back as it was', () => {
    expect(read(writeRoster(known))).toEqual({ data: known, faults: [] });
  });

  it.each(['facilities', 'people', 'rota', 'leave'] as const)('is the demo letter for letter: %s', (table) => {
    expect(writeRoster(loadRoster(`${flowsFolder}/demo`))[table]).toBe(sourceOf(`${flowsFolder}/demo/${table}.csv`).text);
  });

  it('keeps every name, and holds no formula', () => {
    fc.assert(
      fc.property(nameLike, (name) => {
        const data = named(name);
        const written = writeRoster(data);
        expect(read(written)).toEqual({ data, faults: [] });
        for (const [table, column] of [
          ['people', 1],
          ['facilities', 1],
        ] as const) {
          const rows = parse(written[table], { bom: true });
          expect(rows[1]?.[column]).not.toMatch(formula);
        }
      }),
    );
  });

  it.each(['=cmd()', '+1', '-1', '@SUM(A1)', "'=1", "''+1", "'Maalim", 'Anne-Marie', '＝1'])('guards and frees %s', (name) => {
    expect(guardFormula(name)).not.toMatch(formula);
    expect(unguardFormula(guardFormula(name))).toBe(name);
  });

  it('writes numbers with their plus and nothing before it', () => {
    const rows = parse(writeRoster(known).people, { columns: true }) as { phone: string }[];
    expect(rows.map(({ phone }) => phone)).toEqual(known.people.map(({ phone }) => phone));
  });

  it('begins with a byte-order mark where a letter beyond ASCII needs it, and nowhere else', () => {
    const { people, rota } = writeRoster(named('सुनीता'));
    expect([people.startsWith('\uFEFF'), rota.startsWith('\uFEFF')]).toEqual([true, false]);
  });
});
