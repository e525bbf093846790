// `pipit check --sign-off`: what a newborn lead must sign off before live use. First the decisions that are open
// (flows/protocol/sign-off.yaml), each with every value in the protocol's files that hangs on it; then every row that is from
// memory or our own choice, with its source as cited and where it is used.

import { join } from 'node:path';
import type { SignOffItem } from '../authoring/read-sign-off.ts';
import { type RowUses, saidOf } from '../authoring/row-uses.ts';
import type { Touched } from '../authoring/touched-values.ts';
import type { SourceFile } from '../authoring/yaml-source.ts';
import type { Protocol } from '../clinical/protocol.ts';
import type { Config } from './config.ts';
import { loadProtocol } from './load-protocol.ts';

/** Of what stands at a value, so many characters are shown. */
const widest = 160;
const folder = 'flows/protocol/';

export interface RowToSignOff {
  readonly row: string;
  readonly proof: readonly string[];
  readonly source: string;
  /** `finding temperature, band low`, `classification pneumonia` ..., each with its file and line. */
  readonly usedBy: readonly string[];
}

/** Prints what must be signed off. The exit code: 0, or 1 when the protocol cannot be read at all. */
export function signOff(config: Pick<Config, 'flows'>, print: (line: string) => void): number {
  const { files, read } = loadProtocol(join(config.flows, 'protocol'));
  if (read.kind !== 'protocol') {
    print('The protocol cannot be read. Run "pipit check" and mend it first.');
    return 1;
  }
  const rows = rowsToSignOff(read.protocol, read.review.uses);
  for (const line of renderItems(read.review.signOff, rows, files)) print(line);
  print('');
  for (const line of renderRows(rows)) print(line);
  return 0;
}

/** In the order of the rows; rows whose figures were all read in their source are left out. */
export function rowsToSignOff(protocol: Protocol, uses: RowUses): RowToSignOff[] {
  return [...protocol.rows]
    .filter(([, { proof }]) => proof.includes('from-memory') || proof.includes('project'))
    .map(([row, { proof, source }]) => {
      const usedBy = (uses.get(row) ?? []).map((use) => `${saidOf(use)} (${folder}${use.file}:${use.range.start.line})`);
      return { row, proof, source, usedBy: [...new Set(usedBy)] };
    });
}

/**
 * Each decision with the values it touches, a value a line.
 *
 * Takes    files: the protocol's, for the words that stand at each value.
 */
export function renderItems(items: readonly SignOffItem[], rows: readonly RowToSignOff[], files: readonly SourceFile[]): string[] {
  const texts = new Map(files.map(({ name, text }) => [name, text.split(/\r?\n/)]));
  const lines = items.flatMap(({ id, decide, touches, proofs }) => {
    const unproved = rows.filter(({ proof }) => proofs.some((one) => proof.includes(one))).length;
    return [
      `${id}  ${decide}`,
      ...touches.map((touched) => `    ${renderTouched(touched, texts)}`),
      ...(proofs.length > 0 ? [`    the ${unproved} rows listed below`] : []),
    ];
  });
  return [...lines, `${items.length} decisions to sign off.`];
}

function renderTouched({ what, file, range }: Touched, texts: ReadonlyMap<string, readonly string[]>): string {
  const words = (texts.get(file)?.[range.start.line - 1] ?? '').trim().replace(/^- /, '');
  return `${folder}${file}:${range.start.line}  ${what}  ${words.length > widest ? `${words.slice(0, widest)}...` : words}`;
}

export function renderRows(rows: readonly RowToSignOff[]): string[] {
  const lines = rows.map(
    ({ row, proof, source, usedBy }) =>
      `${row}  ${proof.join(', ')}  ${source}\n    ${usedBy.length === 0 ? 'not used by a rule' : usedBy.join('; ')}`,
  );
  return [...lines, `${rows.length} rows to sign off.`];
}
