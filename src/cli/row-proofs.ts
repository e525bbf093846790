// What proves each row of the reference: the reference cases that name it, and the files of tests/ that do. Tests of the
// tools themselves name rows as samples and prove nothing; they are passed over. Next: rows.ts, which prints them.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ReferenceCase } from '../authoring/read-reference-cases.ts';
import { rowId } from '../authoring/row-uses.ts';

export interface RowProofs {
  /** Ids of reference cases. */
  readonly cases: readonly string[];
  /** Paths below the project's root. */
  readonly tests: readonly string[];
}

const testFolders = ['clinical', 'conversation', 'conversations', 'dialog', 'properties', 'published'];

/**
 * The proofs by row.
 *
 * Takes    root: the project's folder. Where it has no tests/, as when installed, the cases alone are told.
 */
export function rowProofs(cases: readonly ReferenceCase[], root: string): ReadonlyMap<string, RowProofs> {
  const proofs = new Map<string, { cases: string[]; tests: string[] }>();
  const of = (row: string): { cases: string[]; tests: string[] } => {
    const found = proofs.get(row) ?? { cases: [], tests: [] };
    proofs.set(row, found);
    return found;
  };
  for (const one of cases) for (const row of one.rows) of(row).cases.push(one.id);
  for (const folder of testFolders)
    for (const path of filesIn(root, `tests/${folder}`))
      for (const row of new Set(readFileSync(join(root, path), 'utf8').match(rowId))) of(row).tests.push(path);
  return proofs;
}

function filesIn(root: string, folder: string): string[] {
  if (!existsSync(join(root, folder))) return [];
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|yaml|csv)$/.test(name))
    .sort()
    .map((name) => `${folder}/${name}`);
}
