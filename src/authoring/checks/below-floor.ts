// What of an interpretation is lower than a reference case expects: a classification or a question that is gone, a lesser urgency, a
// later time. Next: safety-floor.ts, which reports it.

import { minutesOf } from '../../clinical/duration.ts';
import { type Classification, type Interpretation, outcomes } from '../../clinical/protocol.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';

export type Below = readonly [code: string, what: string];

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

/** Classifications that the case says it is not, and is given. */
export function givenToo({ expected }: ReferenceCase, { classifications }: Interpretation): string[] {
  return expected.not.filter((id) => classifications.some((one) => one.id === id));
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
  return outcomes.indexOf(got) > outcomes.indexOf(wanted);
}
