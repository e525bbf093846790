// Rules that name no row of the clinical reference, neither their own nor their classification's: nobody could tell which guideline
// they follow. What a row must say of itself is in read-advice.ts, which rows no rule carries in read-rows-without-rule.ts.

import type { Protocol } from '../../clinical/protocol.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { definitionsIn } from './definitions.ts';

/** Errors, at the classification. A box gathers what others name; of what is routine, no baby is sick. */
export function checkRulesHaveRows({ classifications }: Protocol, sources: readonly SourceFile[], report: Report): void {
  const placeOf = definitionsIn(sources, 'classification');
  for (const { id, rows, rules, box } of classifications) {
    const at = box || rows.length > 0 ? -1 : rules.findIndex((rule) => rule.urgency !== 'routine' && rule.rows.length === 0);
    if (at === -1) continue;
    const place = placeOf(id);
    const what = `Rule ${at + 1} of "${id}" names no row of the reference.`;
    const why = 'Nobody could tell which guideline it follows, nor sign it off.';
    report(complain(place, place.range, 'protocol/rule-without-row', what, why, 'Add "rows: [...]" to the rule or to the classification.'));
  }
}
