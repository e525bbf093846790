// Where the steps of a flow stand in its file, and what their guards and marks say there: what a Flow does not keep, because no
// turn needs it. Anything that cannot be read is left out; read-flow.ts has reported it. Next: flow-map.ts, changes/.

import { oneLine } from './one-line.ts';
import { entriesOf, isList, isMapping, itemsOf, type Place, readYaml, type SourceFile } from './yaml-source.ts';

/** A condition in the author's own words; lists keep their kind, so that each language can join them. */
export type Said = string | { readonly kind: 'all' | 'any' | 'none' | 'two-of'; readonly of: readonly Said[] };

export interface StepPlace {
  /** From 1. */
  readonly line: number;
  readonly guard: Said | null;
  /** By id of the mark. */
  readonly marks: ReadonlyMap<string, number>;
  readonly fields: ReadonlyMap<string, Place>;
}

const unheard = (): void => {};

/** By id of the step; a region's rest behind the last digit has a place of its own. */
export function stepPlaces(source: SourceFile): Map<string, StepPlace> {
  const top = readYaml(source, unheard);
  const list = top === null ? undefined : entriesOf(top, unheard).find(({ key }) => key === 'steps');
  const places = new Map<string, StepPlace>();
  for (const item of list ? itemsOf(list) : []) {
    const fields = new Map(entriesOf(item, unheard).map((entry) => [entry.key, entry]));
    const [named, guard, more] = [fields.get('step'), fields.get('only-if'), fields.get('more')];
    const id = named === undefined ? '' : oneLine(named.node);
    if (named === undefined || id === '' || places.has(id)) continue;
    places.set(id, { line: named.range.start.line, guard: guard ? saidAt(guard) : null, marks: markLines(fields.get('mark')), fields });
    if (more !== undefined)
      places.set(`${id}-more`, { line: more.keyRange.start.line, guard: null, marks: markLines(more), fields: new Map() });
  }
  return places;
}

function saidAt(place: Place): Said | null {
  if (isList(place)) return joined('all', itemsOf(place));
  if (!isMapping(place)) return oneLine(place.node) || null;
  const lists = entriesOf(place, unheard).flatMap((entry) => {
    const kind = (['all', 'any', 'none', 'two-of'] as const).find((one) => one === entry.key);
    return kind === undefined ? [] : (joined(kind, itemsOf(entry)) ?? []);
  });
  return lists.length > 1 ? { kind: 'all', of: lists } : (lists[0] ?? null);
}

function joined(kind: Exclude<Said, string>['kind'], items: readonly Place[]): Said | null {
  const of = items.flatMap((item) => saidAt(item) ?? []);
  return of.length === 0 ? null : of.length === 1 && kind !== 'none' && of[0] !== undefined ? of[0] : { kind, of };
}

/** `grunting`, `tone=floppy`, `then:waters`: the names that read-flow-marks.ts gives. */
function markLines(list: Place | undefined): Map<string, number> {
  const lines = (list ? itemsOf(list) : []).map((item): [string, number] => [markId(item), item.range.start.line]);
  return new Map(lines);
}

function markId(item: Place): string {
  if (!isMapping(item)) return oneLine(item.node);
  const entries = entriesOf(item, unheard);
  const marked = entries.find(({ key }) => key === 'mark');
  if (marked !== undefined) return oneLine(marked.node);
  const own = entries.find(({ key }) => key !== 'then' && key !== 'otherwise');
  if (own !== undefined) return oneLine(own.node) === 'true' ? own.key : `${own.key}=${oneLine(own.node)}`;
  const opens = entries.find(({ key }) => key === 'then');
  return opens === undefined ? '' : `then:${oneLine(opens.node)}`;
}
