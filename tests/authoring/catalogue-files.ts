// Reads locales given as text, and finds the one diagnostic that a test is about.
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readCatalogues } from '../../src/authoring/read-catalogue.ts';
import type { Catalogues } from '../../src/messages/catalogue.ts';

export function readLocales(files: Record<string, string>): { catalogues: Catalogues; diagnostics: Diagnostic[] } {
  const diagnostics: Diagnostic[] = [];
  const sources = Object.entries(files).map(([name, text]) => ({ name, text }));
  return { catalogues: readCatalogues(sources, (diagnostic) => diagnostics.push(diagnostic)), diagnostics };
}

/** The only diagnostic there is; anything else fails the test with all of them. */
export function only(diagnostics: readonly Diagnostic[]): Diagnostic {
  const [first] = diagnostics;
  if (first === undefined || diagnostics.length > 1)
    throw new Error(`One diagnostic is wanted, and there are: ${JSON.stringify(diagnostics, null, 1)}`);
  return first;
}
