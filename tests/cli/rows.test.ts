// The table of the reference's rows in DEVELOPERS.md: it is what the protocol, the reference cases and the tests say today,
// and no row is without a rule and without a reason.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readReferenceCases } from '../../src/authoring/read-reference-cases.ts';
import { sourcesIn } from '../../src/cli/load-files.ts';
import { loadProtocol } from '../../src/cli/load-protocol.ts';
import { rowProofs } from '../../src/cli/row-proofs.ts';
import { renderTable, rowTable, withTable } from '../../src/cli/rows.ts';
import { flowsFolder } from '../support/default-protocol.ts';

const root = new URL('../..', import.meta.url).pathname;
const { read } = loadProtocol(`${flowsFolder}/protocol`);
if (read.kind !== 'protocol') throw new Error('The protocol in flows/ cannot be read.');
const { protocol, review } = read;
const reasons = new Map(review.withoutRule.map(({ row, why }) => [row, why]));
const cases = readReferenceCases(sourcesIn(`${flowsFolder}/reference-cases`), protocol, () => {});

/** So many rows the reference prints, from its conventions to what not to do; the choices are switches. */
const rowsOfTheReference = 552;

describe('every row of the reference', () => {
  it('is known', () => {
    expect(protocol.rows.size).toBe(rowsOfTheReference);
  });

  it('has a rule or a reason for having none, and not both', () => {
    const rows = [...protocol.rows.keys()];
    expect(rows.filter((row) => !review.uses.has(row) && !reasons.has(row))).toEqual([]);
    expect(rows.filter((row) => review.uses.has(row) && reasons.has(row))).toEqual([]);
  });

  it('that has a rule has a case or a test that names it, but for one', () => {
    const proofs = rowProofs(cases, root);
    const unproved = [...protocol.rows.keys()].filter((row) => review.uses.has(row) && !proofs.has(row));
    expect(unproved).toEqual([]);
  });
});

describe('the table in DEVELOPERS.md', () => {
  it('is up to date; if not, run: npm run pipit -- rows --into DEVELOPERS.md', () => {
    const document = readFileSync(`${root}/DEVELOPERS.md`, 'utf8');
    const table = rowTable(flowsFolder, root);
    expect(table).not.toBeNull();
    expect(document).toBe(withTable(document, table ?? []));
  });

  it('shows what carries a row, what proves it, and the reason of a row without a rule', () => {
    const table = renderTable(protocol, review, new Map([['TEMP-04', { cases: ['a', 'b', 'c'], tests: ['tests/clinical/x.yaml'] }]]));
    expect(table).toHaveLength(rowsOfTheReference + 2);
    expect(table).toContain(
      '| TEMP-04 | `temperature` (low) | `low-body-temperature`; advice `skin-to-skin-now` | `a` `b` +1; clinical/x.yaml |',
    );
    expect(table).toContain(`| EYE-04 | | *${reasons.get('EYE-04')}* | |`);
    expect(table.find((line) => line.startsWith('| ABX-05 '))).toContain('dose `gentamicin`, `ampicillin`');
  });

  it('is written between its marks, and nowhere else', () => {
    const marked = 'a\n<!-- rows:begin -->\nold\n<!-- rows:end -->\nb\n';
    expect(withTable(marked, ['new'])).toBe('a\n<!-- rows:begin -->\n\nnew\n\n<!-- rows:end -->\nb\n');
    expect(withTable('no marks', ['new'])).toBeNull();
    expect(withTable('<!-- rows:end -->\n<!-- rows:begin -->\n', ['new'])).toBeNull();
  });
});

describe('proofs', () => {
  it('are read from cases alone where the project has no tests', () => {
    const proofs = rowProofs([{ id: 'one', rows: ['TEMP-03'] } as never], '/nowhere');
    expect(proofs).toEqual(new Map([['TEMP-03', { cases: ['one'], tests: [] }]]));
  });

  it('leave out the tests of the tools, which name rows as samples', () => {
    const files = new Set([...rowProofs([], root).values()].flatMap(({ tests }) => tests.map((path) => path.split('/')[1])));
    expect([...files].filter((folder) => folder === 'cli' || folder === 'authoring' || folder === 'architecture')).toEqual([]);
  });
});
