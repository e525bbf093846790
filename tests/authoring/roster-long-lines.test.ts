// A line of a roster that is thousands of cells long, as a spreadsheet with a lost line end writes it: read in proportion to its length,
// with each cell in its place, and not told of cell by cell.

import { expect, it } from 'vitest';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readRosterTable } from '../../src/authoring/read-roster-table.ts';
import { processorSeconds } from '../bench/processor-time.ts';

const columns = { needed: ['id', 'name'], optional: [] };

function read(text: string): { readonly faults: readonly Diagnostic[]; readonly seconds: number } {
  const faults: Diagnostic[] = [];
  const from = processorSeconds();
  readRosterTable({ name: 'facilities.csv', text }, columns, (fault) => faults.push(fault));
  return { faults, seconds: processorSeconds() - from };
}

it('tells once of a column that stands there a thousand times', () => {
  const { faults } = read(`id,name${',name'.repeat(1_000)}\nmarula,Marula`);
  expect(faults.map(({ code, range }) => `${code} ${range.start.column}`)).toEqual(['roster/column-twice 9']);
});

it('knows where a cell stands behind letters of several bytes', () => {
  const { faults } = read('id;name\nmarula;Åmål 中心 👶;spare');
  expect(faults.map(({ code, range }) => `${code} ${range.start.column}-${range.end.column}`)).toEqual([
    'roster/cell-without-column 19-24',
  ]);
});

it('takes a hundred times as long for a hundred times as many cells, and not ten thousand times', () => {
  const quickest = (cells: number): number => Math.min(...Array.from({ length: 3 }, () => read(`id,name\n${'åå,'.repeat(cells)}`).seconds));
  quickest(2_000);
  expect(quickest(100_000)).toBeLessThan(1_000 * Math.max(quickest(1_000), 0.001));
});
