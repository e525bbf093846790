// The four tables as text, and what becomes of them when they are saved: read as `pipit roster check` reads a folder, and imported
// whole or not at all. What somebody imported since the page was made is told first. Next: roster-page.tsx.

import { type Diagnostic, sortDiagnostics } from '../../authoring/diagnostic.ts';
import { readRoster } from '../../authoring/read-roster.ts';
import { writeRoster } from '../../authoring/write-roster.ts';
import type { RosterData } from '../../conversation/roster.ts';
import type { RosterEdits } from '../ports.ts';

export const tables = ['facilities', 'people', 'rota', 'leave'] as const;
export type Table = (typeof tables)[number];
export type TableTexts = Readonly<Record<Table, string>>;

/** Line endings of a form, and no byte-order mark, which only a spreadsheet needs. */
export function textsOf(data: RosterData): TableTexts {
  const written = writeRoster(data);
  const plain = (text: string): string => text.replace(/^\uFEFF/, '').replaceAll('\r\n', '\n');
  return { facilities: plain(written.facilities), people: plain(written.people), rota: plain(written.rota), leave: plain(written.leave) };
}

export function readTexts(texts: TableTexts): { readonly data: RosterData; readonly diagnostics: readonly Diagnostic[] } {
  const source = (table: Table) => ({ name: fileOf(table), text: texts[table] });
  const diagnostics: Diagnostic[] = [];
  const sources = { facilities: source('facilities'), people: source('people'), rota: source('rota'), leave: source('leave') };
  const data = readRoster(sources, (fault) => diagnostics.push(fault));
  return { data, diagnostics: sortDiagnostics(diagnostics) };
}

export function fileOf(table: Table): string {
  return `${table}.csv`;
}

export type SavedRoster =
  | { readonly kind: 'imported'; readonly changes: number }
  /** There is an error; nothing was written. */
  | { readonly kind: 'refused' }
  | { readonly kind: 'overtaken' };

/** Takes  seen: number of the import that the tables began from. */
export async function saveRoster(
  texts: TableTexts,
  seen: number,
  by: string,
  { import: bringIn }: Pick<RosterEdits, 'import'>,
): Promise<SavedRoster> {
  const { data, diagnostics } = readTexts(texts);
  if (diagnostics.some(({ severity }) => severity === 'error')) return { kind: 'refused' };
  const changes = await bringIn(data, by, seen);
  return changes === null ? { kind: 'overtaken' } : { kind: 'imported', changes };
}
