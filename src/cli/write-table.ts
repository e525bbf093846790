// Cells to the text of a file that a spreadsheet opens: guarded against formulas, and with a byte-order mark, without which a
// spreadsheet spoils every letter beyond ASCII.

import { stringify } from 'csv-stringify/sync';
import { guardFormula } from '../authoring/spreadsheet-formula.ts';

/** Lines may be of different lengths; each ends in CR LF, as RFC 4180 has it. */
export function writeTable(lines: readonly (readonly string[])[]): string {
  const guarded = lines.map((cells) => cells.map(guardFormula));
  // A lone CR is not quoted of itself when records end in CR LF, and would begin a cell of its own.
  return stringify(guarded, { bom: true, record_delimiter: '\r\n', quoted_match: /[\r\n]/ });
}
