// Phone numbers in a table of the roster: E.164, with the plus. A spreadsheet takes a number for a sum: it loses the plus, and
// shows a long one rounded, whose last digits are gone for good. Each gets the remedy of its own.

import { isValidPhoneNumber } from 'libphonenumber-js';
import { faultOf, filled } from './read-roster-cells.ts';
import { type Cell, cellOf, type Row } from './read-roster-table.ts';
import { unguardFormula } from './spreadsheet-formula.ts';
import type { Report } from './yaml-source.ts';

const keepText = 'Make the column text in the spreadsheet before you type or open the numbers';

/** The number; null, and a report, when the cell is empty or holds none. */
export function phoneIn(row: Row, column: string, report: Report): string | null {
  const cell = filled(row, column, report);
  return cell === null ? null : readPhone(row, cell, report);
}

/** Empty: null without a report. */
export function phoneOrNoneIn(row: Row, column: string, report: Report): string | null {
  const cell = cellOf(row, column);
  return cell.text === '' ? null : readPhone(row, cell, report);
}

function readPhone(row: Row, cell: Cell, report: Report): string | null {
  const text = unguardFormula(cell.text);
  if (isNumber(text)) return text;
  const { code, what, fix } = faultIn(text);
  report(faultOf(row, cell, code, what, fix));
  return null;
}

function faultIn(text: string): { readonly code: string; readonly what: string; readonly fix: string } {
  const rounded = /^(\d)(?:[.,](\d+))?E\+?(\d{1,2})$/i.exec(text);
  const [, first = '', decimals = '', exponent = ''] = rounded ?? [];
  if (rounded !== null && decimals.length < Number(exponent)) {
    const fix = `${keepText}, then type this number anew, with the plus.`;
    return { code: 'digits-lost', what: `The spreadsheet has rounded a number to "${text}"; its last digits are gone.`, fix };
  }
  const digits = rounded === null ? text.replace(/[.,]0*$/, '') : first + decimals;
  if (/^[1-9]\d{6,14}$/.test(digits) && isNumber(`+${digits}`)) {
    return { code: 'plus-lost', what: `"${text}" has lost its plus.`, fix: `Write "+${digits}". ${keepText}.` };
  }
  const joined = text.replace(/[\s().\u00A0-]/g, '').replace(/^00/, '+');
  const fix = isNumber(joined) ? `Write "${joined}".` : 'Write it with the plus and the country, such as +254700555101.';
  return { code: 'not-a-number', what: `"${text}" is not a phone number in international form.`, fix };
}

function isNumber(text: string): boolean {
  return /^\+\d{6,15}$/.test(text) && isValidPhoneNumber(text);
}
