// Reads rows-without-rule.yaml: rows of the clinical reference that nothing in the protocol carries, and why that is right.
// A row with a rule and a reason, or with neither, is reported. Where rows are carried: row-uses.ts.

import type { RowSource } from '../clinical/protocol.ts';
import type { Diagnostic } from './diagnostic.ts';
import { type RowUses, saidOf } from './row-uses.ts';
import { complain, entriesOf, fieldsOf, itemsOf, needed, type Place, type Report, textOf } from './yaml-source.ts';

export interface RowWithoutRule {
  readonly row: string;
  readonly why: string;
  readonly place: Place;
}

export function readRowsWithoutRule(top: Place, report: Report): RowWithoutRule[] {
  const list = fieldsOf(top, ['rows-without-rule'], report).get('rows-without-rule');
  return (list ? itemsOf(list) : []).flatMap((item) => {
    const fields = fieldsOf(item, ['why', 'rows'], report);
    const whyPlace = needed(fields, 'why', item, report);
    const rows = needed(fields, 'rows', item, report);
    const why = whyPlace && textOf(whyPlace, report);
    if (!rows || !why) return [];
    return itemsOf(rows).flatMap((place) => {
      const row = textOf(place, report);
      return row === null ? [] : [{ row, why, place }];
    });
  });
}

/** Warnings: a protocol under work may be tried out before every row has found its place. */
export function checkRowsHaveRuleOrReason(
  rows: ReadonlyMap<string, RowSource>,
  top: Place | null,
  uses: RowUses,
  without: readonly RowWithoutRule[],
  report: Report,
): void {
  const warn: Report = (diagnostic) => report({ ...diagnostic, severity: 'warning' });
  const seen = new Map<string, RowWithoutRule>();
  for (const one of without) {
    const [use] = uses.get(one.row) ?? [];
    if (use !== undefined) warn({ ...ruleAndReason(one, saidOf(use)), related: [{ file: use.file, range: use.range, what: 'The rule.' }] });
    if (seen.has(one.row)) warn(reasonTwice(one));
    seen.set(one.row, one);
  }
  const all = top && fieldsOf(top, ['rows'], () => {}).get('rows');
  for (const entry of all ? entriesOf(all, () => {}) : [])
    if (rows.has(entry.key) && !uses.has(entry.key) && !seen.has(entry.key)) warn(neither(entry));
}

function ruleAndReason({ row, place }: RowWithoutRule, use: string): Diagnostic {
  const what = `${row} is said to have no rule, and ${use} carries it.`;
  return complain(place, place.range, 'rows/rule-and-reason', what, 'One of the two is not true.', `Take ${row} out here, or there.`);
}

function reasonTwice({ row, place }: RowWithoutRule): Diagnostic {
  const what = `${row} stands here a second time.`;
  return complain(
    place,
    place.range,
    'rows/reason-twice',
    what,
    'Nobody could tell which reason holds.',
    `Take ${row} out of one of them.`,
  );
}

function neither(entry: Place): Diagnostic {
  const what = `No rule carries ${entry.key}, and no reason is given for that.`;
  const why = 'What the reference says there may have been forgotten, and a baby with it.';
  const fix = `Name ${entry.key} under "rows" where it is used, or in rows-without-rule.yaml with the reason.`;
  return complain(entry, entry.keyRange, 'rows/no-rule-and-no-reason', what, why, fix);
}
