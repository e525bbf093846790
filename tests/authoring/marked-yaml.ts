// YAML with the place that a diagnostic must point at put between « and », so that a test shows text and position in one.

import type { Diagnostic, Range } from '../../src/authoring/diagnostic.ts';

export interface Marked {
  readonly text: string;
  readonly range: Range;
}

export function marked(yaml: string): Marked {
  const [before = '', inside = '', after] = yaml.split(/[«»]/);
  if (after === undefined) throw new Error('Put the place between « and ».');
  return { text: before + inside + after, range: { start: positionAfter(before), end: positionAfter(before + inside) } };
}

function positionAfter(text: string): Range['start'] {
  const lines = text.split('\n');
  return { line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 };
}

/** What was found, as code and place, with all that a coordinator reads there. */
export function codesOf(diagnostics: readonly Diagnostic[]): string[] {
  return diagnostics.map(({ code }) => code);
}
