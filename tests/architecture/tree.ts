// The files of the project as a fresh clone would have them: what was installed or built is left out. Paths are relative
// to the top level. Without git, so that it works in an unpacked archive too. Next: house.test.ts.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export const top = new URL('../..', import.meta.url).pathname;

const made = new Set(['node_modules', 'dist', 'coverage', '.pipit', '.git']);

/** The names at the top level. */
export function topLevel(): string[] {
  return readdirSync(top).filter((name) => !made.has(name) && !name.endsWith('.log'));
}

/** Every file under a folder, sorted. */
export function filesUnder(folder: string): string[] {
  return readdirSync(join(top, folder), { withFileTypes: true, recursive: false })
    .filter((entry) => !made.has(entry.name) && !entry.name.endsWith('.log'))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      return entry.isDirectory() ? filesUnder(path) : [path];
    })
    .sort();
}

export function textOf(path: string): string {
  return readFileSync(join(top, path), 'utf8');
}
