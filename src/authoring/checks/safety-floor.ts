// The safety floor: every reference case comes out at least as urgent as the guideline says, whatever was edited.
// The cases are read by read-reference-cases.ts; which of them are lacking is said by floor-coverage.ts. What is lower: below-floor.ts.

import { complain, type Report } from '../yaml-source.ts';
import type { JudgedCase } from './judged-cases.ts';

const why = 'A baby like this one would be missed, or sent too late.';
const fix = 'Take back the edit that changed it, or have the case signed off anew.';

/** A case that comes out lower is reported where it stands, once for each thing that is lower; one that comes out as more, in a warning. */
export function checkSafetyFloor(cases: readonly JudgedCase[], report: Report): void {
  for (const { case: one, below, tooMuch } of cases) {
    const { place, title } = one;
    for (const [code, what] of below) report(complain(place, place.range, `floor/${code}`, `"${title}": ${what}`, why, fix));
    if (tooMuch.length === 0) continue;
    const what = `"${title}": this baby is now "${tooMuch.join('", "')}" as well, and the guideline says it is not.`;
    const harm = 'It would be treated for what it does not have, or told two things that do not go together.';
    report({ ...complain(place, place.range, 'floor/classified-too', what, harm, fix), severity: 'warning' });
  }
}
