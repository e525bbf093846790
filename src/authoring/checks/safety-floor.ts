// The safety floor: every reference case comes out at least as urgent as the guideline says, whatever was edited.
// The cases are read by read-reference-cases.ts; which of them are lacking is said by floor-coverage.ts. What is lower: below-floor.ts.

import { complain, type Report } from '../yaml-source.ts';
import type { JudgedCase } from './judged-cases.ts';

const why = 'A baby like this one would be missed, or sent too late.';
const fix = 'Take back the edit that changed it, or have the case signed off anew.';

/** Errors: none; a case that comes out lower is reported where it stands, once for each thing that is lower. */
export function checkSafetyFloor(cases: readonly JudgedCase[], report: Report): void {
  for (const { case: one, below } of cases) {
    const { place, title } = one;
    for (const [code, what] of below) report(complain(place, place.range, `floor/${code}`, `"${title}": ${what}`, why, fix));
  }
}
