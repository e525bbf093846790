// What a coordinator is told about a file of hers: what is wrong, why it matters to the baby, and what to type instead.
// One value for every reader and every check, and its rendering as text. Next: yaml-source.ts, which knows the positions.

/** Counted from 1, as editors do. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

export interface Diagnostic {
  /** `area/what-is-wrong`. */
  readonly code: string;
  readonly severity: 'error' | 'warning';
  readonly file: string;
  readonly range: Range;
  /** In the author's own words. */
  readonly what: string;
  /** What the worker, the nurse or the baby would meet. */
  readonly why: string;
  /** Something to type, nearest name first. */
  readonly fix: string;
  readonly related: readonly { readonly file: string; readonly range: Range; readonly what: string }[];
}

export const wholeFile: Range = { start: { line: 1, column: 1 }, end: { line: 1, column: 1 } };

/** By file, then by position, so that a file is mended from top to bottom. */
export function sortDiagnostics(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  return [...diagnostics].sort(
    (a, b) =>
      a.file.localeCompare(b.file) ||
      a.range.start.line - b.range.start.line ||
      a.range.start.column - b.range.start.column ||
      a.code.localeCompare(b.code),
  );
}

/**
 * The diagnostic as a coordinator reads it, with the line it speaks of and the lines around it.
 *
 * Takes    text: the file's content; without it there is no code frame.
 */
export function renderDiagnostic(diagnostic: Diagnostic, text: string | undefined): string {
  const { file, range, severity, code } = diagnostic;
  const lines = [`${file}:${range.start.line}:${range.start.column}  ${severity}  ${code}`, `  ${diagnostic.what}`];
  if (text !== undefined) lines.push(...codeFrame(text, range));
  lines.push(`  why  ${diagnostic.why}`, `  fix  ${diagnostic.fix}`);
  for (const other of diagnostic.related)
    lines.push(`  see  ${other.file}:${other.range.start.line}:${other.range.start.column}  ${other.what}`);
  return lines.join('\n');
}

function codeFrame(text: string, { start, end }: Range): string[] {
  const source = text.split(/\r?\n/);
  const width = String(Math.min(start.line + 1, source.length)).length;
  const frame: string[] = [];
  for (let line = Math.max(1, start.line - 1); line <= Math.min(source.length, start.line + 1); line++) {
    const marker = line === start.line ? '>' : ' ';
    frame.push(` ${marker} ${String(line).padStart(width)} | ${source[line - 1] ?? ''}`.trimEnd());
    if (line === start.line)
      frame.push(`   ${' '.repeat(width)} | ${' '.repeat(start.column - 1)}${'^'.repeat(caretLength(source, start, end))}`);
  }
  return frame;
}

function caretLength(source: readonly string[], start: Position, end: Position): number {
  const lineLength = (source[start.line - 1] ?? '').length;
  const last = end.line === start.line ? end.column : lineLength + 1;
  return Math.max(1, last - start.column);
}
