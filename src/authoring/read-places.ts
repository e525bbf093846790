// What stands in the {places} of messages at its longest (flows/reference/places.yaml), line by line as it is written: the first line
// that fits a place holds. Next: checks/longest-values.ts, which makes texts of it in a language.

import {
  complain,
  fieldsOf,
  itemsOf,
  needed,
  numberOf,
  type Place,
  type Report,
  readYaml,
  type SourceFile,
  textOf,
  textsOf,
} from './yaml-source.ts';

export interface PlaceLine {
  readonly place: string;
  /** Beginnings of the names of messages; empty for all messages. */
  readonly under: readonly string[];
  readonly holds: Held;
}

export type Held =
  | { readonly kind: 'text'; readonly text: string }
  /** So many letters of the language's own alphabet. */
  | { readonly kind: 'letters'; readonly count: number }
  /** The longest message under these names. */
  | { readonly kind: 'message'; readonly under: readonly string[] }
  /** Cut to the room that is left. */
  | { readonly kind: 'fitted' };

const kinds = ['text', 'letters', 'message', 'fitted'] as const;
const why = 'Messages with this place are not measured with what stands there, and could become too long.';

/** The lines that can be read; of others it is reported what is wrong. */
export function readPlaces(source: SourceFile, report: Report): PlaceLine[] {
  const top = readYaml(source, report);
  if (top === null) return [];
  const list = fieldsOf(top, ['places'], report).get('places');
  return list === undefined ? [] : itemsOf(list).flatMap((item) => lineIn(item, report) ?? []);
}

function lineIn(item: Place, report: Report): PlaceLine | null {
  const fields = fieldsOf(item, ['place', 'under', ...kinds], report);
  const place = needed(fields, 'place', item, report);
  const given = kinds.flatMap((kind) => fields.get(kind) ?? []);
  const [only] = given;
  if (place === null) return null;
  if (only === undefined || given.length > 1) {
    const what = `"${textOf(place, report) ?? ''}" has ${given.length === 0 ? 'nothing that says what stands there' : 'more than one thing that stands there'}.`;
    report(complain(item, item.range, 'places/not-one-thing', what, why, `Give one of: ${kinds.join(', ')}.`));
    return null;
  }
  const under = fields.get('under');
  const name = textOf(place, report);
  const holds = heldIn(only, report);
  return name === null || holds === null ? null : { place: name, under: under === undefined ? [] : textsOf(under, report), holds };
}

function heldIn(field: Place, report: Report): Held | null {
  switch (field.key) {
    case 'letters': {
      const count = numberOf(field, report);
      return count === null ? null : { kind: 'letters', count };
    }
    case 'message':
      return { kind: 'message', under: textsOf(field, report) };
    case 'fitted':
      return { kind: 'fitted' };
    default: {
      const text = textOf(field, report);
      return text === null ? null : { kind: 'text', text };
    }
  }
}
