// Plain comma-separated text to rows that know their place, and cells to numbers and words. For published tables: no
// quoting, no comma within a cell, the columns exactly as expected. Next: read-growth-tables.ts.

import { type Diagnostic, type Range, wholeFile } from './diagnostic.ts';
import { nearestName } from './nearest-name.ts';

export type Report = (diagnostic: Diagnostic) => void;

export interface CsvRow {
  readonly file: string;
  readonly range: Range;
  readonly cells: ReadonlyMap<string, { readonly text: string; readonly range: Range }>;
}

const usedWhole = 'A table is used whole or not at all: a wrong number would give a wrong centile without a word.';

/** A fault of a table. Takes code: what is wrong, without its area. */
export function tableFault(file: string, range: Range, code: string, said: { what: string; why?: string; fix: string }): Diagnostic {
  return { code: `growth-table/${code}`, severity: 'error', file, range, why: usedWhole, ...said, related: [] };
}

/** The rows of a table. A row with too many or too few cells is reported and left out. */
export function readCsv(file: string, text: string, columns: readonly string[], report: Report): readonly CsvRow[] {
  const [header = '', ...lines] = text.replace(/^\uFEFF/, '').split(/\r?\n/);
  if (header !== columns.join(',')) {
    report(
      tableFault(file, wholeFile, 'wrong-columns', { what: `The first line reads "${header}".`, fix: `Make it "${columns.join(',')}".` }),
    );
    return [];
  }
  return lines.flatMap((line, index) => (line === '' ? [] : readRow(file, line, index + 2, columns, report)));
}

function readRow(file: string, text: string, line: number, columns: readonly string[], report: Report): readonly CsvRow[] {
  const from = (start: number, length: number): Range => ({ start: { line, column: start }, end: { line, column: start + length } });
  const range = from(1, text.length);
  const texts = text.split(',');
  if (texts.length !== columns.length) {
    report(
      tableFault(file, range, 'wrong-number-of-cells', {
        what: `This row has ${texts.length} cells; the table has ${columns.length} columns.`,
        fix: 'Copy the row again from the published table; a decimal is written with a point.',
      }),
    );
    return [];
  }
  const cells: [string, { text: string; range: Range }][] = [];
  let column = 1;
  for (const [index, cell] of texts.entries()) {
    cells.push([columns[index] ?? '', { text: cell, range: from(column, cell.length) }]);
    column += cell.length + 1;
  }
  return [{ file, range, cells: new Map(cells) }];
}

const numberKinds = {
  any: { isFine: () => true, wanted: 'a number such as -0.0749' },
  positive: { isFine: (value: number) => value > 0, wanted: 'a number above 0, such as 3.3464' },
  whole: { isFine: (value: number) => Number.isInteger(value) && value >= 0, wanted: 'a whole number, such as 231' },
} as const;

/** The number in a cell; NaN, and a report, when it is not one of this kind. */
export function readNumber(row: CsvRow, column: string, kind: keyof typeof numberKinds, report: Report): number {
  const { text, range } = cellOf(row, column);
  const value = /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  const { isFine, wanted } = numberKinds[kind];
  if (!Number.isNaN(value) && isFine(value)) return value;
  const fix = `Write ${wanted}, as printed in the source.`;
  report(tableFault(row.file, range, 'not-a-number', { what: `Column "${column}" reads "${text}".`, fix }));
  return Number.NaN;
}

/** What the word in a cell stands for; undefined, and a report, when it is not one of the words. */
export function readWord<T>(row: CsvRow, column: string, words: ReadonlyMap<string, T>, report: Report): T | undefined {
  const { text, range } = cellOf(row, column);
  const meaning = words.get(text);
  if (meaning !== undefined) return meaning;
  const nearest = nearestName(text, words.keys());
  const fix = nearest === null ? `Write one of: ${[...words.keys()].join(', ')}.` : `Write "${nearest}".`;
  report(tableFault(row.file, range, 'unknown-word', { what: `Column "${column}" reads "${text}".`, fix }));
  return undefined;
}

function cellOf(row: CsvRow, column: string): { readonly text: string; readonly range: Range } {
  return row.cells.get(column) ?? { text: '', range: row.range };
}
