// `pipit rows`: every row of the clinical reference, what in the protocol carries it and what proves that, as a Markdown table.
// A row that nothing carries shows the reason (flows/protocol/rows-without-rule.yaml). DEVELOPERS.md holds the table.

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Review } from '../authoring/read-protocol.ts';
import { readReferenceCases } from '../authoring/read-reference-cases.ts';
import type { RowUse, UseKind } from '../authoring/row-uses.ts';
import type { Protocol } from '../clinical/protocol.ts';
import type { Config } from './config.ts';
import { sourcesIn } from './load-files.ts';
import { loadProtocol } from './load-protocol.ts';
import { type RowProofs, rowProofs } from './row-proofs.ts';

export const rowsBegin = '<!-- rows:begin -->';
export const rowsEnd = '<!-- rows:end -->';

/**
 * Prints the table, or writes it between the two marks of a document.
 *
 * Returns  the exit code: 0, or 1 when the protocol cannot be read or the document has no marks.
 */
export function rows(config: Pick<Config, 'flows'>, root: string, into: string | undefined, print: (line: string) => void): number {
  const table = rowTable(config.flows, root);
  if (table === null) {
    print('The protocol cannot be read. Run "pipit check" and mend it first.');
    return 1;
  }
  if (into === undefined) {
    print(table.join('\n'));
    return 0;
  }
  const document = withTable(readFileSync(into, 'utf8'), table);
  if (document === null) {
    print(`${into} has no lines ${rowsBegin} and ${rowsEnd}. Write them where the table is to stand.`);
    return 1;
  }
  writeFileSync(into, document);
  return 0;
}

/** The lines of the table; null when the protocol cannot be read. */
export function rowTable(flows: string, root: string): string[] | null {
  const { read } = loadProtocol(join(flows, 'protocol'));
  if (read.kind !== 'protocol') return null;
  const cases = readReferenceCases(sourcesIn(join(flows, 'reference-cases')), read.protocol, () => {});
  return renderTable(read.protocol, read.review, rowProofs(cases, root));
}

/** The document with the table between its marks; null when it has none. */
export function withTable(document: string, table: readonly string[]): string | null {
  const begin = document.indexOf(`${rowsBegin}\n`);
  const end = document.indexOf(rowsEnd);
  if (begin === -1 || end < begin) return null;
  return `${document.slice(0, begin)}${rowsBegin}\n\n${table.join('\n')}\n\n${document.slice(end)}`;
}

export function renderTable(protocol: Protocol, { uses, withoutRule }: Review, proofs: ReadonlyMap<string, RowProofs>): string[] {
  const reasons = new Map(withoutRule.map(({ row, why }) => [row, why]));
  const lines = [...protocol.rows.keys()].map((row) => {
    const carried = uses.get(row) ?? [];
    const proved = renderProofs(proofs.get(row));
    if (carried.length === 0) return tableLine(row, '', `*${reasons.get(row) ?? 'no rule and no reason'}*`, proved);
    return tableLine(row, renderUses(carried, found), renderUses(carried, given), proved);
  });
  return [tableLine('row', 'found as', 'gives', 'proved by'), tableLine('---', '---', '---', '---'), ...lines];
}

const tableLine = (...cells: readonly string[]): string => `|${cells.map((cell) => (cell === '' ? ' ' : ` ${cell} `)).join('|')}|`;

const found: readonly UseKind[] = ['finding', 'field'];
/** In this order; what is no classification says what it is. */
const given: readonly UseKind[] = ['classification', 'dose', 'feeds', 'contact', 'switch', 'advice'];
const shown = 3;

/** Each finding once, with its bands; three of a kind at most. */
function renderUses(uses: readonly RowUse[], kinds: readonly UseKind[]): string {
  return kinds
    .flatMap((kind) => {
      const bands = new Map<string, Set<string>>();
      for (const use of uses.filter((one) => one.kind === kind)) {
        const of = bands.get(use.id) ?? new Set();
        if (use.band !== undefined) of.add(use.limit === undefined ? use.band : `${use.band}: limit ${use.limit}`);
        bands.set(use.id, of);
      }
      const names = [...bands].map(([id, of]) => `\`${id.replace(/^advice\./, '')}\`${of.size === 0 ? '' : ` (${[...of].join(', ')})`}`);
      if (names.length === 0) return [];
      const word = kind === 'finding' || kind === 'field' || kind === 'classification' ? '' : `${kind} `;
      return [`${word}${names.slice(0, shown).join(', ')}${names.length > shown ? ` +${names.length - shown}` : ''}`];
    })
    .join('; ');
}

/** Two cases by name and the number of the others; the tests by their file. */
function renderProofs(proofs: RowProofs | undefined): string {
  if (proofs === undefined) return '';
  const { cases, tests } = proofs;
  const named = cases.slice(0, 2).map((id) => `\`${id}\``);
  const more = cases.length > named.length ? [`+${cases.length - named.length}`] : [];
  return [[...named, ...more].join(' '), ...tests.map((path) => path.replace(/^tests\//, ''))].filter((part) => part !== '').join('; ');
}
