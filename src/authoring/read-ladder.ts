// Reads one ladder of follow-up.yaml: steps with a time and whom they ask, in the order of their times.
// Next: read-follow-up.ts.

import type { Asked, Ladder, Rung } from '../on-call/follow-up.ts';
import { readMinutes } from './read-minutes.ts';
import { complain, fieldsOf, itemsOf, needed, type Place, type Report, wordOf } from './yaml-source.ts';

const asked: readonly Asked[] = ['receiving', 'worker', 'nurse', 'coordinator'];

export function readLadder(place: Place, report: Report): Ladder {
  const rungs: Rung[] = [];
  for (const item of itemsOf(place)) {
    const rung = readRung(item, rungs.at(-1)?.afterMinutes ?? -1, report);
    if (rung !== null) rungs.push(rung);
  }
  if (itemsOf(place).length === 0)
    report(
      complain(
        place,
        place.keyRange,
        'follow-up/no-steps',
        `"${place.key}" has no steps.`,
        'Nobody would be asked.',
        'Write "- { after: PT30M, asks: [worker] }" below it.',
      ),
    );
  return rungs;
}

/** Of an urgent referral that nobody confirms, the nurse hears. */
export function readUrgentLadder(place: Place, report: Report): Ladder {
  const rungs = readLadder(place, report);
  if (rungs.length > 0 && !rungs.some(({ asks }) => asks.includes('nurse')))
    report(
      complain(
        place,
        place.keyRange,
        'follow-up/nurse-never-told',
        'No step of this ladder tells the nurse.',
        'A sick baby that nobody answers for would be lost.',
        'Add nurse to "asks" of the last step.',
      ),
    );
  return rungs;
}

function readRung(item: Place, before: number, report: Report): Rung | null {
  const fields = fieldsOf(item, ['after', 'asks'], report);
  const [after, asks] = [needed(fields, 'after', item, report), needed(fields, 'asks', item, report)];
  const afterMinutes = after && readMinutes(after, 0, report);
  if (after === null || asks === null || afterMinutes === null) return null;
  if (afterMinutes <= before) {
    const why = 'The steps are taken in the order in which they stand.';
    report(complain(after, after.range, 'follow-up/out-of-order', 'This is not later than the step before it.', why, 'Sort the steps.'));
    return null;
  }
  const whom = itemsOf(asks).flatMap((one) => wordOf(one, asked, report) ?? []);
  if (itemsOf(asks).length === 0)
    report(complain(asks, asks.keyRange, 'follow-up/asks-nobody', 'This step asks nobody.', 'It would do nothing.', 'Write [worker].'));
  return { afterMinutes, asks: whom };
}
