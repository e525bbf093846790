// The marks of a region: `grunting`, `chest-indrawing: severe`, `then: pus-spots`, `{ mark: sacral-dimple, then: dimple }`,
// each with the values that hold when it is not made. At most nine, for there are nine digits.

import type { Mark } from '../dialog/flow.ts';
import type { Diagnostic } from './diagnostic.ts';
import { readValues, unknownFinding, valueFor } from './read-flow-values.ts';
import type { Vocabulary } from './vocabulary.ts';
import { complain, entriesOf, isMapping, itemsOf, type Place, type Report, textOf } from './yaml-source.ts';

const lost = 'What the worker marks would be thrown away.';

export function readMarks(body: Place, most: number, vocabulary: Vocabulary, report: Report): { marks: Mark[]; thens: Place[] } {
  const items = itemsOf(body);
  if (items.length === 0) report(nothingAsked(body));
  if (items.length > most) {
    const why = most === 9 ? 'A phone has nine digits beside 0.' : 'Digit 9 opens the rest of the region.';
    report(
      complain(
        body,
        body.keyRange,
        'flow/too-many-marks',
        `${items.length} signs stand here; ${most} have a digit.`,
        why,
        'Move the rarer signs under "more:", or to another step.',
      ),
    );
  }
  const thens: Place[] = [];
  const seen = new Set<string>();
  const marks = items.flatMap((item): Mark[] => {
    const mark = isMapping(item) ? readMapped(item, thens, vocabulary, report) : readPlain(item, vocabulary, report);
    if (mark === null || !seen.has(mark.id)) {
      if (mark !== null) seen.add(mark.id);
      return mark === null ? [] : [mark];
    }
    report(
      complain(
        item,
        item.range,
        'flow/mark-twice',
        `"${mark.id}" stands here twice.`,
        'One sign would have two digits, and another none.',
        'Take one of them out.',
      ),
    );
    return [];
  });
  return { marks, thens };
}

export function nothingAsked(list: Place): Diagnostic {
  return complain(
    list,
    list.keyRange,
    'flow/nothing-asked',
    `"${list.key}" lists nothing.`,
    'The worker would be asked nothing.',
    'List what is to be asked, or take the step out.',
  );
}

function readPlain(item: Place, vocabulary: Vocabulary, report: Report): Mark | null {
  const of = textOf(item, report);
  if (of === null) return null;
  return isSign(of, item, vocabulary, report) ? { id: of, sets: { of, value: true }, otherwise: {} } : null;
}

function readMapped(item: Place, thens: Place[], vocabulary: Vocabulary, report: Report): Mark | null {
  const entries = new Map(entriesOf(item, report).map((entry) => [entry.key, entry]));
  const then = entries.get('then');
  const opens = then === undefined ? null : textOf(then, report);
  if (then !== undefined && opens !== null) thens.push({ ...then, key: opens });
  const otherwise = readValues(entries.get('otherwise'), vocabulary, report);
  const marked = entries.get('mark');
  for (const word of ['then', 'otherwise', 'mark']) entries.delete(word);
  const extra = opens === null ? {} : { opens };
  if (marked !== undefined) {
    const of = textOf(marked, report);
    return of !== null && isSign(of, marked, vocabulary, report) ? { id: of, sets: { of, value: true }, otherwise, ...extra } : null;
  }
  const [entry, second] = entries.values();
  if (second !== undefined) {
    report(
      complain(
        second,
        second.keyRange,
        'flow/two-findings',
        `One mark sets "${entry?.key}" and "${second.key}".`,
        'Only the first would be recorded.',
        `Give "${second.key}" a line of its own.`,
      ),
    );
    return null;
  }
  if (entry === undefined) return opens === null ? null : { id: `then:${opens}`, sets: null, otherwise, ...extra };
  const value = valueFor(entry, vocabulary, report);
  if (value === undefined) return null;
  // `grunting: true` is the same mark as `grunting`.
  return { id: value === true ? entry.key : `${entry.key}=${String(value)}`, sets: { of: entry.key, value }, otherwise, ...extra };
}

function isSign(of: string, place: Place, vocabulary: Vocabulary, report: Report): boolean {
  const finding = vocabulary.findings.get(of);
  if (finding?.kind === 'sign') return true;
  if (finding === undefined) report(unknownFinding(place, of, vocabulary, lost));
  else
    report(
      complain(
        place,
        place.range,
        'flow/not-a-sign',
        `"${of}" is not seen or not seen; it has a value.`,
        lost,
        `Write "${of}: " and the option, or open a step that reads it with "then:".`,
      ),
    );
  return false;
}
