// Reads a protocol's folder from disk. What the files mean is src/authoring/read-protocol.ts.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type ReadProtocol, readProtocol } from '../authoring/read-protocol.ts';
import type { SourceFile } from '../authoring/yaml-source.ts';

export interface LoadedProtocol {
  readonly files: readonly SourceFile[];
  readonly read: ReadProtocol;
}

/** The protocol in this folder, with the texts of its files for code frames. A folder that is not there is a breakage. */
export function loadProtocol(folder: string): LoadedProtocol {
  const files = protocolFiles(folder);
  return { files, read: readProtocol(files) };
}

/** The texts alone, not yet read as a protocol. */
export function protocolFiles(folder: string): SourceFile[] {
  return [...yamlIn(folder, ''), ...yamlIn(folder, 'classifications/')];
}

function yamlIn(folder: string, under: string): SourceFile[] {
  return readdirSync(join(folder, under))
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => ({ name: under + name, text: readFileSync(join(folder, under, name), 'utf8') }));
}
