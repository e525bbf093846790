// Where a decision meets the protocol: every line of its files that a row, a limit, a switch or a table stands on or is read
// at. Only found here; what is to be decided is read-sign-off.ts. Where rows are carried: row-uses.ts.

import type { Range } from './diagnostic.ts';
import type { RowWithoutRule } from './read-rows-without-rule.ts';
import { type RowUses, saidOf } from './row-uses.ts';
import { scalarsOf } from './scalars.ts';
import { entriesOf, itemsOf, type Place, textOf } from './yaml-source.ts';

/** One value in the protocol's files. */
export interface Touched {
  /** `ABX-05, dose gentamicin`, `limit high-temperature`, `switch fever-line` ... */
  readonly what: string;
  readonly file: string;
  readonly range: Range;
}

export type Tops = ReadonlyMap<string, Place | null>;

const unheard = (): void => {};

/** Where rules carry the row; where none does, where the reason for that stands. */
export function valuesOfRow(row: string, uses: RowUses, without: readonly RowWithoutRule[]): Touched[] {
  const carried = (uses.get(row) ?? []).map((use) => ({ what: `${row}, ${saidOf(use)}`, file: use.file, range: use.range }));
  if (carried.length > 0) return carried;
  return without.filter((one) => one.row === row).map(({ place }) => ({ what: `${row}, no rule`, file: place.file, range: place.range }));
}

/** Its line, the lines it is moved to, and what reads it. */
export function valuesOfLimit(limit: string, tops: Tops): Touched[] {
  const what = `limit ${limit}`;
  const entry = limitsIn(tops).find(({ key }) => key === limit);
  const lines = entry
    ? entriesOf(entry, unheard).flatMap((line) => (line.key === 'moved' ? itemsOf(line).map((move) => move.range) : [line.keyRange]))
    : [];
  return [
    ...lines.map((range) => ({ what, file: entry?.file ?? '', range })),
    ...said(tops, ({ text, under }) => (under === 'limit' && text === limit) || follows(text, ['past', 'below'], limit), what),
  ];
}

/** Its options, the lines that it moves, and the conditions and tables that ask for it. */
export function valuesOfSwitch(id: string, tops: Tops): Touched[] {
  const moves = limitsIn(tops).flatMap((limit) =>
    entriesOf(limit, unheard)
      .filter(({ key }) => key === 'moved')
      .flatMap((moved) => itemsOf(moved))
      .filter((move) => entriesOf(move, unheard).some(({ key }) => key === id))
      .map(({ file, range }) => ({ what: `switch ${id}, limit ${limit.key}`, file, range })),
  );
  return [
    ...said(tops, ({ text, under }) => (under === 'switch' && text === id) || follows(text, ['switch'], id), `switch ${id}`),
    ...moves,
  ];
}

/** Every step of a table of bilirubin.yaml or feeds.yaml, by the table's name. */
export function stepsOfTables(tops: Tops): Map<string, Touched[]> {
  const tables = ['bilirubin.yaml', 'feeds.yaml'].flatMap((name) => {
    const top = tops.get(name);
    const list = top ? entriesOf(top, unheard).find(({ key }) => key === 'tables') : undefined;
    return list ? itemsOf(list) : [];
  });
  const steps = new Map<string, Touched[]>();
  for (const table of tables) {
    const parts = entriesOf(table, unheard);
    const namePlace = parts.find(({ key }) => key === 'table');
    const name = (namePlace && textOf(namePlace, unheard)) ?? '';
    const lines = parts.filter(({ key }) => key !== 'table').flatMap((part) => itemsOf(part));
    const before = steps.get(name) ?? [];
    steps.set(name, [...before, ...lines.map(({ file, range }) => ({ what: `table ${name}`, file, range }))]);
  }
  return steps;
}

function limitsIn(tops: Tops): Place[] {
  const top = tops.get('limits.yaml');
  const all = top ? entriesOf(top, unheard).find(({ key }) => key === 'limits') : undefined;
  return all ? entriesOf(all, unheard) : [];
}

function said(tops: Tops, isMeant: (scalar: ReturnType<typeof scalarsOf>[number]) => boolean, what: string): Touched[] {
  return [...tops].flatMap(([name, top]) =>
    top === null || name === 'sign-off.yaml'
      ? []
      : scalarsOf(top)
          .filter(isMeant)
          .map(({ range }) => ({ what, file: top.file, range })),
  );
}

/** `age past prolonged-jaundice`, `switch cord-pus is urgent`. */
function follows(text: string, words: readonly string[], name: string): boolean {
  if (!text.includes(name)) return false;
  const said = text.split(' ');
  return said.some((word, at) => word === name && words.includes(said[at - 1] ?? ''));
}
