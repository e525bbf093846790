// How two texts differ, line by line, as data: hunks with some unchanged lines around each, and the line numbers of both texts.
// Found by the diff package. Shown by diff.tsx.

import { structuredPatch } from 'diff';

export interface DiffLine {
  readonly kind: 'same' | 'removed' | 'added';
  readonly text: string;
  /** From 1, in the text before and the text after; null where the line is not. */
  readonly before: number | null;
  readonly after: number | null;
}

/** Lines that stand together. */
export interface Hunk {
  readonly lines: readonly DiffLine[];
}

/**
 * What was removed and added; no hunk when the texts are the same.
 *
 * Takes    context: unchanged lines that are shown before and after each change.
 */
export function lineDiff(before: string, after: string, context = 3): Hunk[] {
  return structuredPatch('', '', before, after, undefined, undefined, { context }).hunks.map(({ oldStart, newStart, lines }) => {
    let [old, now] = [oldStart, newStart];
    // "\ No newline at end of file" is no line of either text.
    const own = lines.filter((line) => !line.startsWith('\\'));
    return {
      lines: own.map((line): DiffLine => {
        const text = line.slice(1).replace(/\r$/, '');
        if (line.startsWith('-')) return { kind: 'removed', text, before: old++, after: null };
        if (line.startsWith('+')) return { kind: 'added', text, before: null, after: now++ };
        return { kind: 'same', text, before: old++, after: now++ };
      }),
    };
  });
}
