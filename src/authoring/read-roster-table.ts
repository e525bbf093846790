// One table of the roster as a spreadsheet writes it: comma, semicolon or tab; quotes; a byte-order mark; either line ending;
// empty rows and cells at the end. Rows know their place. A line is one row: no cell of a roster holds a line break, so a quote
// that is never closed spoils its own line and no other. Next: read-roster-cells.ts, which gives cells their types.

import { parse } from 'csv-parse/sync';
import { type Range, wholeFile } from './diagnostic.ts';
import { complain, type Report, type SourceFile, unknownName } from './yaml-source.ts';

export interface Cell {
  /** Trimmed; empty when there is none. */
  readonly text: string;
  readonly range: Range;
}

export interface Row {
  readonly file: string;
  readonly range: Range;
  readonly cells: ReadonlyMap<string, Cell>;
}

/** A value with the row that it was read from. */
export interface Placed<T> {
  readonly value: T;
  readonly row: Row;
}

export interface Columns {
  readonly needed: readonly string[];
  readonly optional: readonly string[];
  readonly mayBeEmpty?: boolean;
}

/** What stands in `why` when a part of the roster cannot be used. */
export const unused = 'A roster with an error is not used at all: whoever it leaves out would get no answer.';

const delimiters = [',', ';', '\t'] as const;

/** The rows of a table; none, and a report, when its columns are not those of the table. */
export function readRosterTable(source: SourceFile, columns: Columns, report: Report): readonly Row[] {
  const [first = '', ...rest] = source.text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  // What some spreadsheets write, and read, to say which delimiter follows.
  const said = /^"?sep=(.)"?$/i.exec(first)?.[1];
  const header = said === undefined ? first : (rest.shift() ?? '');
  const headerLine = said === undefined ? 1 : 2;
  const known = [...columns.needed, ...columns.optional];
  const delimiter = said ?? delimiterOf(header, known);
  const names = readHeader(source.name, header, headerLine, delimiter, columns, report);
  if (names === null) return [];
  if (columns.mayBeEmpty !== true && rest.every((text) => text.trim() === ''))
    report(
      complain({ file: source.name }, wholeFile, 'roster/no-rows', 'Nothing stands below the columns.', unused, 'Add a line for each.'),
    );
  return rest.flatMap((text, index) => {
    const row = readRow({ file: source.name, text, line: headerLine + 1 + index, delimiter, names }, report);
    return row === null ? [] : [row];
  });
}

export function cellOf(row: Row, column: string): Cell {
  return row.cells.get(column) ?? { text: '', range: row.range };
}

/** The one that splits off most of the names. */
function delimiterOf(header: string, known: readonly string[]): string {
  const named = (delimiter: string): number => header.split(delimiter).filter((name) => known.includes(columnName(name))).length;
  return delimiters.reduce((best, one) => (named(one) > named(best) ? one : best));
}

function columnName(cell: string): string {
  return cell.trim().replace(/^"|"$/g, '').trim().toLowerCase();
}

function readHeader(
  file: string,
  text: string,
  line: number,
  delimiter: string,
  { needed, optional }: Columns,
  report: Report,
): readonly string[] | null {
  const cells = splitLine(text, line, delimiter);
  const range = lineRange(text, line);
  const place = { file };
  if (cells === null || text.trim() === '') {
    report(complain(place, wholeFile, 'roster/no-header', 'The first line names no columns.', unused, `Begin with: ${needed.join(',')}.`));
    return null;
  }
  const names = cells.map((cell) => columnName(cell.text));
  const known = [...needed, ...optional];
  let isFine = true;
  const fault = (at: Range, code: string, what: string, fix: string): void => {
    report(complain(place, at, code, what, unused, fix));
    isFine = false;
  };
  const times = new Map<string, number>();
  for (const [index, name] of names.entries()) {
    const at = cells[index]?.range ?? range;
    times.set(name, (times.get(name) ?? 0) + 1);
    if (name !== '' && times.get(name) === 2) fault(at, 'roster/column-twice', `There are two columns "${name}".`, 'Take one of them out.');
    if (name === '' || known.includes(name)) continue;
    report(unknownName(place, at, 'roster/unknown-column', 'column', name, known, unused));
    isFine = false;
  }
  // A name that is written wrongly is one fault, not two.
  const missing = isFine ? needed.filter((one) => !names.includes(one)) : [];
  for (const name of missing)
    fault(range, 'roster/column-missing', `There is no column "${name}".`, `Name the columns: ${known.join(',')}.`);
  return isFine ? names : null;
}

interface Line {
  readonly file: string;
  readonly text: string;
  readonly line: number;
  readonly delimiter: string;
  readonly names: readonly string[];
}

/** Null for an empty row, and for one whose cells cannot be told apart. */
function readRow({ file, text, line, delimiter, names }: Line, report: Report): Row | null {
  const range = lineRange(text, line);
  const fault = (at: Range, code: string, what: string, fix: string): void => report(complain({ file }, at, code, what, unused, fix));
  const lost = text.search(/[\uFFFD\0]/);
  if (lost !== -1) {
    const fix = 'Save the file as "CSV UTF-8", then look at the names in this line.';
    fault(span(line, lost, lost + 1), 'roster/letters-lost', 'A letter in this line cannot be read.', fix);
  }
  const cells = splitLine(text, line, delimiter);
  if (cells === null) {
    const fix = 'Close the quote, write a quote within quotes twice, and take line breaks out of the cell.';
    fault(range, 'roster/quote-not-closed', 'A quote is opened in this line and not closed.', fix);
    return null;
  }
  if (cells.every((cell) => cell.text === '')) return null;
  const spare = cells.find((cell, index) => (names[index] ?? '') === '' && cell.text !== '');
  if (spare !== undefined) {
    const fix = 'Put text that holds the delimiter in double quotes, or name the column.';
    fault(spare.range, 'roster/cell-without-column', `"${spare.text}" stands in no column.`, fix);
    return null;
  }
  return { file, range, cells: new Map(names.map((name, index) => [name, cells[index] ?? { text: '', range }])) };
}

/** Null when a quote is not closed. */
function splitLine(text: string, line: number, delimiter: string): readonly Cell[] | null {
  const cells: Cell[] = [];
  const bytes = Buffer.from(text);
  const delimiterBytes = Buffer.byteLength(delimiter);
  let [start, startByte] = [0, 0];
  const cast = (value: string, { bytes: endByte }: { readonly bytes: number }): string => {
    const end = start + bytes.subarray(startByte, endByte).toString().length;
    cells.push({ text: value.trim(), range: span(line, start, end) });
    [start, startByte] = [end + delimiter.length, endByte + delimiterBytes];
    return value;
  };
  try {
    parse(text, { delimiter, cast, relax_quotes: true, relax_column_count: true, record_delimiter: '\n' });
    return cells;
  } catch {
    return null;
  }
}

function lineRange(text: string, line: number): Range {
  return span(line, 0, text.length);
}

/** Takes  from, to: counted from 0, `to` no longer part of it. */
function span(line: number, from: number, to: number): Range {
  return { start: { line, column: from + 1 }, end: { line, column: to + 1 } };
}
