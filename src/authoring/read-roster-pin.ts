// The PIN of a person, for a phone that goes from hand to hand: digits as a coordinator writes them, or the hash that an export gave
// back (src/conversation/password.ts makes it, where the roster is stored). What is wrong is said without the digits.

import { faultOf } from './read-roster-cells.ts';
import { cellOf, type Row } from './read-roster-table.ts';
import type { Report } from './yaml-source.ts';

/** With costs that a server can bear: what somebody wrote into a table is computed for each try. */
const hash = /^scrypt\$(?:8192|16384|32768|65536|131072)\$8\$(?:10|[1-9])\$[A-Za-z0-9+/]{22}==\$[A-Za-z0-9+/]{43}=$/;

const why = 'Whoever holds the phone would open it by guessing, or the person could never open it.';

/** Undefined: she has none. Null, and a report, when there is something else. */
export function pinIn(row: Row, report: Report): string | null | undefined {
  const cell = cellOf(row, 'pin');
  if (cell.text === '') return undefined;
  if (hash.test(cell.text)) return cell.text;
  const refuse = (code: string, what: string, fix: string): null => {
    report(faultOf(row, cell, code, what, fix, why));
    return null;
  };
  if (/^0\d*$/.test(cell.text))
    return refuse('pin-begins-with-zero', 'This PIN begins with 0, which a spreadsheet takes away.', 'Begin it with another digit.');
  if (!/^\d{4,8}$/.test(cell.text))
    return refuse('not-a-pin', 'This PIN is not 4 to 8 digits.', 'Write 4 to 8 digits that follow no rule, or leave it empty.');
  if (isGuessed(cell.text) || cellOf(row, 'phone').text.endsWith(cell.text))
    return refuse('pin-guessed', 'This PIN is among the first that anybody would try.', 'Take digits that follow no rule.');
  return cell.text;
}

/** Each digit is as far from the one before it: 1111, 1234, 8642. Or it is one pair over and over: 1212. */
function isGuessed(digits: string): boolean {
  const steps = [...digits].slice(1).map((digit, at) => Number(digit) - Number(digits[at]));
  return steps.every((step) => step === steps[0]) || [...digits].every((digit, at) => at < 2 || digit === digits[at - 2]);
}
