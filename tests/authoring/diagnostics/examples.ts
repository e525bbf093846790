// Examples of diagnostics as they stand in the tables beside: a small edit of a file, or a tiny file, with the place that is pointed at
// between « and ». Next: read-example.ts, which reads the edited text as `pipit check` does.

import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';

export interface Example {
  readonly code: string;
  /** In a sentence: what an author did. */
  readonly shows: string;
  /** The shipped file, or the table of a sound roster, that is edited; left out: the texts below are the whole file. */
  readonly file?: string;
  readonly find?: string;
  readonly invalid: string;
  /** Left out: the file as shipped. */
  readonly valid?: string;
  /** Where it is pointed at, when not in what was edited: a piece of the edited file. */
  readonly at?: string;
  /** Other codes that the same slip brings. */
  readonly also?: readonly string[];
  readonly severity?: 'warning';
  /** A part of what it says to type. */
  readonly fix?: string;
}

const folder = new URL('.', import.meta.url);

export const examples: readonly (Example & { readonly table: string })[] = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .flatMap((name) => {
    const read = parse(readFileSync(new URL(name, folder), 'utf8')) as readonly Example[];
    return read.map((example) => ({ ...example, table: name.replace('.yaml', '') }));
  });
