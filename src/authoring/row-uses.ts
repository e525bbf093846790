// Where the protocol carries a row of the clinical reference: every "row" and "rows" of its files, with whose they are.
// What is said of rows (rows.yaml), why some have no rule (rows-without-rule.yaml) and what is to be signed off do not
// carry a row. Next: read-rows-without-rule.ts.

import { isMap, isPair, isScalar, type Node, type Scalar, visit, type YAMLMap } from 'yaml';
import type { Range } from './diagnostic.ts';
import { type Place, rangeOfNode } from './yaml-source.ts';

/** `dose` is named by its drug, `feeds` by its table. */
const kinds = {
  classification: 'classification',
  finding: 'finding',
  field: 'field',
  advice: 'advice',
  drug: 'dose',
  contact: 'contact',
  switch: 'switch',
  table: 'feeds',
} as const;

export type UseKind = (typeof kinds)[keyof typeof kinds];

export interface RowUse {
  readonly kind: UseKind;
  readonly id: string;
  /** Of a finding or a field. */
  readonly band?: string;
  /** The limit that the band begins at. */
  readonly limit?: string;
  readonly file: string;
  /** The rule, band or amount that it stands in. */
  readonly range: Range;
}

export type RowUses = ReadonlyMap<string, readonly RowUse[]>;

/** A row's id, such as TEMP-03 or ABX-08b. */
export const rowId = /\b[A-Z][A-Z0-9]*-\d+[a-z]?\b/g;

const carriesNone: readonly string[] = ['rows.yaml', 'rows-without-rule.yaml', 'sign-off.yaml', 'sources.yaml'];

export function rowUses(tops: ReadonlyMap<string, Place | null>): RowUses {
  const uses = new Map<string, RowUse[]>();
  for (const [name, top] of tops) {
    if (top?.node == null || carriesNone.includes(name)) continue;
    visit(top.node, {
      Scalar(key, node, path) {
        if (key === 'key') return;
        const rows = rowsIn(node, nearestKey(path));
        const use = rows.length === 0 ? null : useAt(path, top);
        if (use === null) return;
        for (const row of rows) uses.set(row, [...(uses.get(row) ?? []), use]);
      },
    });
  }
  return uses;
}

/** A switch says in a sentence which rows its other options follow. */
function rowsIn({ value }: Scalar, under: string): string[] {
  const text = String(value);
  if (under === 'rows' || under === 'row') return [text];
  return under === 'changes' ? (text.match(rowId) ?? []) : [];
}

type Path = readonly unknown[];

function nearestKey(path: Path): string {
  const pair = path.findLast((one) => isPair(one));
  return isPair(pair) && isScalar(pair.key) ? String(pair.key.value) : '';
}

function useAt(path: Path, top: Place): RowUse | null {
  const maps = path.filter((one): one is YAMLMap => isMap(one)).reverse();
  const [nearest] = maps;
  for (const map of maps) {
    for (const [word, kind] of Object.entries(kinds)) {
      const id = textIn(map, word);
      if (nearest === undefined || id === undefined) continue;
      const band = kind === 'finding' || kind === 'field' ? textIn(nearest, 'id') : undefined;
      const limit = textIn(nearest, 'limit');
      const range = rangeOfNode(top, nearest as Node);
      return { kind, id, ...(band ? { band } : {}), ...(limit ? { limit } : {}), file: top.file, range };
    }
  }
  return null;
}

function textIn(map: YAMLMap, key: string): string | undefined {
  const value = map.get(key, true);
  return isScalar(value) ? String(value.value) : undefined;
}

/** `finding temperature, band low`. */
export function saidOf({ kind, id, band }: RowUse): string {
  return `${kind} ${id.replace(/^advice\./, '')}${band === undefined ? '' : `, band ${band}`}`;
}
