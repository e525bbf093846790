// The safety floor: every reference case comes out at least as urgent as the guideline says, whatever was edited.
// The cases are read by read-reference-cases.ts; which of them are lacking is said by floor-coverage.ts.

import { minutesOf } from '../../clinical/duration.ts';
import { interpret } from '../../clinical/interpret.ts';
import { type Classification, type Interpretation, type Protocol, urgencies } from '../../clinical/protocol.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';
import { complain, type Report } from '../yaml-source.ts';

const why = 'A baby like this one would be missed, or sent too late.';
const fix = 'Take back the edit that changed it, or have the case signed off anew.';

/** Most urgent first. A baby who is not yet called well ranks above one who is. */
const order: readonly Interpretation['urgency'][] = [...urgencies.filter((one) => one !== 'routine'), 'incomplete', 'routine'];

/** Errors: none; a case that comes out lower is reported where it stands, once for each thing that is lower. */
export function checkSafetyFloor(cases: readonly ReferenceCase[], protocol: Protocol, report: Report): void {
  for (const one of cases) {
    const { place, title } = one;
    for (const [code, what] of belowFloor(one, interpret(protocol, one.input)))
      report(complain(place, place.range, `floor/${code}`, `"${title}": ${what}`, why, fix));
  }
}

type Below = readonly [code: string, what: string];

/** What is lower than expected; nothing when the case holds. */
export function belowFloor({ expected }: ReferenceCase, result: Interpretation): Below[] {
  const given = new Map(result.classifications.map((one) => [one.id, one]));
  const absent = expected.classifications.filter(({ id }) => !given.has(id)).map(({ id }) => id);
  const unasked = expected.missing.filter((id) => !result.missing.includes(id));
  const below: Below[] = [];
  if (absent.length > 0) below.push(['not-classified', `this baby is no longer "${absent.join('", "')}".`]);
  if (unasked.length > 0) below.push(['not-asked', `"${unasked.join('", "')}" is no longer asked for.`]);
  if (isLess(result.urgency, expected.urgency))
    below.push(['less-urgent', `this baby comes out "${result.urgency}", and the guideline says "${expected.urgency}".`]);
  for (const { id, urgency } of expected.classifications) {
    const got = given.get(id)?.urgency;
    if (got !== undefined && urgency !== null && isLess(got, urgency))
      below.push(['less-urgent', `"${id}" comes out "${got}", and the guideline says "${urgency}".`]);
  }
  const first = given.get(expected.classifications[0]?.id ?? '');
  if (first !== undefined) below.push(...late(first, expected));
  return below;
}

function late(given: Classification, expected: ReferenceCase['expected']): Below[] {
  return (['recheck', 'within'] as const).flatMap((time): Below[] => {
    const wanted = expected[time];
    const got = given[time];
    if (wanted === undefined || given.urgency === 'urgent' || (got !== undefined && minutesOf(got) <= minutesOf(wanted))) return [];
    return [['later', `"${given.id}" comes out with "${time}: ${got ?? 'none'}", and the guideline says ${wanted}.`]];
  });
}

function isLess(got: Interpretation['urgency'], wanted: Interpretation['urgency']): boolean {
  return order.indexOf(got) > order.indexOf(wanted);
}
