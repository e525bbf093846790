// The files of a protocol as entries with a name each, whatever they hold: the items of a list are named by their first value, those
// of a map by their key. Compared as the author wrote them, on one line, so that layout and comments are no change.
// Next: protocol-changes.ts, and the files beside it that know what an entry means.

import { isScalar } from 'yaml';
import { oneLine } from '../one-line.ts';
import { entriesOf, isList, isMapping, itemsOf, type Place, readYaml, type SourceFile } from '../yaml-source.ts';
import type { Spot } from './change.ts';

export interface Entry extends Spot {
  /** The key at the top of the file that it stands under. */
  readonly section: string;
  readonly id: string;
  readonly place: Place;
}

const unheard = (): void => {};

/** In the order of the file; null when it is not YAML. */
export function entriesIn(source: SourceFile): Entry[] | null {
  const top = readYaml(source, unheard);
  if (top === null) return null;
  return fieldsIn(top).flatMap((part): Entry[] => {
    const section = part.key;
    if (isMapping(part)) return fieldsIn(part).map((place) => ({ section, id: place.key, place, ...spotOf(place) }));
    if (!isList(part)) return [{ section, id: section, place: part, ...spotOf(part) }];
    const seen = new Map<string, number>();
    return itemsOf(part).map((place) => {
      const name = nameOf(place);
      const count = (seen.get(name) ?? 0) + 1;
      seen.set(name, count);
      return { section, id: count === 1 ? name : `${name} (${count})`, place, ...spotOf(place) };
    });
  });
}

/** The fields of a map; of anything else, none. */
export function fieldsIn(place: Place): Place[] {
  return isMapping(place) ? entriesOf(place, unheard) : [];
}

export function fieldIn(place: Place, name: string): Place | undefined {
  return fieldsIn(place).find(({ key }) => key === name);
}

/** The items of a field's list. */
export function itemsIn(place: Place, name: string): Place[] {
  const field = fieldIn(place, name);
  return field === undefined ? [] : itemsOf(field);
}

export function nameOf(item: Place): string {
  const first = fieldsIn(item)[0] ?? item;
  return isScalar(first.node) ? oneLine(first.node) : first.key;
}

export function textOf(place: Place | undefined): string {
  return place === undefined ? '' : oneLine(place.node);
}

/** A condition as it is said: without the braces around `any: [...]`. */
export function conditionIn(place: Place | undefined): string {
  return textOf(place).replace(/^\{ (.*) \}$/s, '$1');
}

/** What differs between two maps, as far as it differs: `amount: 8` and `amount: 9`; a dash where nothing stands in its place. */
export function differenceOf(before: Place, after: Place): { readonly from: string; readonly to: string } {
  const said = (own: Place, other: Place): string => {
    const fields = fieldsIn(own).filter((field) => textOf(field) !== textOf(fieldIn(other, field.key)));
    return fields.map((field) => `${field.key}: ${textOf(field)}`).join(', ') || '-';
  };
  return { from: said(before, after), to: said(after, before) };
}

export function spotOf({ file, key, range, keyRange, node }: Place): Spot {
  return { file, line: key !== '' && !isScalar(node) ? Math.min(keyRange.start.line, range.start.line) : range.start.line };
}
