// All that differs between two editions of the files, most consequential first: as message keys with values, so that each language
// says it in its own words. Comments and layout are no change. Next: change.ts (the kinds in their order), one file a subject.

import { babyChanges } from './baby-changes.ts';
import { type Change, type Edition, kinds } from './change.ts';
import { flowChanges } from './flow-changes.ts';
import { protocolChanges } from './protocol-changes.ts';
import { wordingChanges } from './wording-changes.ts';

/**
 * What an edit changes, in the order of what it can do to a baby, then by file and line.
 *
 * Takes    two editions that were read without an error: what cannot be read is not compared.
 */
export function changesBetween(before: Edition, after: Edition): Change[] {
  const all = [
    ...babyChanges(before, after),
    ...protocolChanges(before.sources, after.sources),
    ...flowChanges(before, after),
    ...wordingChanges(before, after),
  ];
  return all.sort(
    (a, b) => kinds.indexOf(a.kind) - kinds.indexOf(b.kind) || (a.file < b.file ? -1 : a.file > b.file ? 1 : a.line - b.line),
  );
}
