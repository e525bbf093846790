// Reads a folder's YAML files as sources, named by their path below the folder's parent, in a fixed order.

import { readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { SourceFile } from '../authoring/yaml-source.ts';

export function sourcesIn(folder: string, name = basename(folder)): SourceFile[] {
  const entries = readdirSync(folder).sort();
  return entries.flatMap((entry): SourceFile[] => {
    const path = join(folder, entry);
    if (statSync(path).isDirectory()) return sourcesIn(path, `${name}/${entry}`);
    return /\.ya?ml$/.test(entry) ? [{ name: `${name}/${entry}`, text: readFileSync(path, 'utf8') }] : [];
  });
}

export function sourceOf(path: string, name = basename(path)): SourceFile {
  return { name, text: readFileSync(path, 'utf8') };
}
