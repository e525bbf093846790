// `pipit check`: loads flows, protocol and wording, and prints what is wrong with them, sorted by file and position.

import { join } from 'node:path';
import { renderDiagnostic } from '../authoring/diagnostic.ts';
import type { Config } from './config.ts';
import { loadProtocol } from './load-protocol.ts';
import { loadAll } from './load-published.ts';
import { renderSignOff, rowsToSignOff } from './sign-off.ts';

/** Prints what must be signed off. The exit code: 0, or 1 when the protocol cannot be read at all. */
export function signOff(config: Config, print: (line: string) => void): number {
  const { read } = loadProtocol(join(config.flows, 'protocol'));
  if (read.kind !== 'protocol') {
    print('The protocol cannot be read. Run "pipit check" and mend it first.');
    return 1;
  }
  for (const line of renderSignOff(rowsToSignOff(read.protocol))) print(line);
  return 0;
}

/** The exit code: 0 when nothing is wrong, 1 when something is. */
export async function check(config: Config, format: 'text' | 'json', print: (line: string) => void): Promise<number> {
  const { diagnostics, sources, published } = await loadAll(config);
  const errors = diagnostics.filter((one) => one.severity === 'error').length;
  if (format === 'json') {
    print(JSON.stringify({ version: published?.version ?? null, diagnostics }, null, 2));
    return errors === 0 ? 0 : 1;
  }
  const texts = new Map(sources.map(({ name, text }) => [name, text]));
  for (const diagnostic of diagnostics) print(`${renderDiagnostic(diagnostic, texts.get(diagnostic.file))}\n`);
  const warnings = diagnostics.length - errors;
  print(
    `${sources.length} files: ${errors} ${errors === 1 ? 'error' : 'errors'}, ${warnings} ${warnings === 1 ? 'warning' : 'warnings'}.${published === null ? '' : ` Version ${published.version}.`}`,
  );
  return errors === 0 ? 0 : 1;
}
