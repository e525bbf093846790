// Reads the growth tables from a folder, once, at start-up: either all of them are right or nothing starts.
// File access only; what the files must hold is src/authoring/read-growth-tables.ts.
//
// Trap: the distribution functions are WebAssembly and need a moment to be compiled. The modules that call them wait for
// it when they are loaded (src/clinical/normal.ts), so nothing has to be waited for here.

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { renderDiagnostic } from '../authoring/diagnostic.ts';
import { growthTableFiles, readGrowthTables } from '../authoring/read-growth-tables.ts';
import type { GrowthTables } from '../clinical/growth-tables.ts';

/**
 * The growth tables in a folder.
 *
 * Errors   one Error that shows every bad row with its file, line and mend, when the tables cannot be used.
 */
export async function loadGrowthTables(folder: string): Promise<GrowthTables> {
  const files = await readGrowthFiles(folder);
  const read = readGrowthTables(files);
  if (read.kind === 'tables') return read.tables;
  const faults = read.diagnostics.map((diagnostic) => renderDiagnostic(diagnostic, files.get(diagnostic.file)));
  throw new Error(`The growth tables in ${folder} cannot be used.\n${faults.join('\n')}`);
}

/** The text of each table that is there, for readGrowthTables to judge. */
export async function readGrowthFiles(folder: string): Promise<ReadonlyMap<string, string>> {
  const files = new Map<string, string>();
  for (const file of growthTableFiles) {
    try {
      files.set(file, await readFile(join(folder, file), 'utf8'));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    }
  }
  return files;
}
