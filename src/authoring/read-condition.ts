// Reads conditions: lists under any, all, none and two-of, whose leaves are one line of plain words, such as
// "temperature is low or severely-low", "age < 168 h", "2 readings of respiratory-rate are fast", "not danger-sign".
// The words of a leaf are read by read-leaf.ts; which names there are, by vocabulary.ts.

import type { Condition } from '../clinical/condition.ts';
import { readLeaf } from './read-leaf.ts';
import type { Vocabulary } from './vocabulary.ts';
import { complain, entriesOf, isList, isMapping, itemsOf, type Place, type Report, textOf, unknownName } from './yaml-source.ts';

const listKinds = ['any', 'all', 'none', 'two-of'] as const;
const why = 'The rule could not be judged, and what it looks for would be missed.';

/**
 * The condition that stands at this place; null, with a diagnostic, when it cannot be read.
 *
 * Takes    a leaf as text; a map with one of any, all, none, two-of; or a list, of which all must hold.
 */
export function readCondition(place: Place, vocabulary: Vocabulary, report: Report): Condition | null {
  if (isList(place)) return readList(place, 'all', vocabulary, report);
  if (!isMapping(place)) {
    const text = textOf(place, report);
    return text === null ? null : readLeaf(text, place, vocabulary, report);
  }
  const entries = entriesOf(place, report);
  const parts: Condition[] = [];
  for (const entry of entries) {
    const kind = listKinds.find((one) => one === entry.key);
    if (kind === undefined) {
      report(unknownName(entry, entry.keyRange, 'condition/unknown-list', 'kind of list', entry.key, listKinds, why));
      return null;
    }
    const part = readList(entry, kind, vocabulary, report);
    if (part === null) return null;
    parts.push(part);
  }
  const [first, ...others] = parts;
  if (first === undefined) {
    report(
      complain(place, place.range, 'condition/empty', 'This condition is empty.', why, 'Write what must be found, such as "grunting".'),
    );
    return null;
  }
  return others.length === 0 ? first : { kind: 'all', of: parts };
}

function readList(place: Place, kind: (typeof listKinds)[number], vocabulary: Vocabulary, report: Report): Condition | null {
  const items = itemsOf(place);
  const parts = items.map((item) => readCondition(item, vocabulary, report));
  if (parts.includes(null)) return null;
  if (parts.length === 0) {
    report(complain(place, place.keyRange, 'condition/empty', `"${kind}" lists nothing.`, why, 'List at least one condition under it.'));
    return null;
  }
  const of = parts as Condition[];
  return kind === 'two-of' ? { kind: 'at-least', count: 2, of } : { kind, of };
}
