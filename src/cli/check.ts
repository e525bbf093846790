// `pipit check`: loads flows, protocol and wording, and prints what is wrong with them, sorted by file and position.

import { renderDiagnostic } from '../authoring/diagnostic.ts';
import type { Config } from './config.ts';
import { loadAll } from './load-published.ts';

/** The exit code: 0 when nothing is wrong, 1 when something is. */
export async function check(config: Config, format: 'text' | 'json', print: (line: string) => void): Promise<number> {
  const { diagnostics, sources, published } = loadAll(config);
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
