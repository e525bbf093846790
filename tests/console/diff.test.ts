// A file beside the published one, line by line.

import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { DiffView } from '../../src/console/diff/diff.tsx';
import { lineDiff } from '../../src/console/diff/line-diff.ts';
import { sayKey } from './words-of-keys.ts';

const numbered = (from: number, to: number): string => Array.from({ length: to - from + 1 }, (_, at) => `line ${from + at}\n`).join('');
const before = numbered(1, 30);

describe('the difference of two texts', () => {
  it.each([
    ['the same text', 'a\nb\n', 'a\nb\n', []],
    ['two empty texts', '', '', []],
    ['a line put in the place of another', 'a\nb\nc\n', 'a\nx\nc\n', ['1 1  a', '2 - -b', '- 2 +x', '3 3  c']],
    ['a line added at the end', 'a\n', 'a\nb\n', ['1 1  a', '- 2 +b']],
    ['a text where there was none', '', 'a\n', ['- 1 +a']],
    ['a text taken out', 'a\n', '', ['1 - -a']],
    ['a last line without its end', 'a\nb', 'a\nc', ['1 1  a', '2 - -b', '- 2 +c']],
    ['a line that begins as a diff would', '- x\n', '+ x\n', ['1 - -- x', '- 1 ++ x']],
  ])('holds for %s', (_, one, other, lines) => {
    const signs = { same: ' ', removed: '-', added: '+' } as const;
    const said = lineDiff(one, other).flatMap((hunk) =>
      hunk.lines.map((line) => `${line.before ?? '-'} ${line.after ?? '-'} ${signs[line.kind]}${line.text}`),
    );
    expect(said).toEqual(lines);
  });

  it('shows as many unchanged lines around a change as wished, and parts what is far apart', () => {
    const after = before.replace('line 5\n', '').replace('line 25\n', 'line 25b\n');
    const hunks = lineDiff(before, after, 2);
    expect(hunks.map(({ lines }) => [lines[0]?.before, lines.at(-1)?.after])).toEqual([
      [3, 6],
      [23, 26],
    ]);
  });
});

describe('the page of a difference', () => {
  const after = before.replace('line 5\n', 'line <5>\nline 5b\n').replace('line 25\n', '');
  const page = renderToString(h(DiffView, { file: 'flows/a.yaml', hunks: lineDiff(before, after), say: sayKey }));
  const rows = page.split('<tr class="diff-').slice(1);

  it('says in words which lines were added and removed, and counts them', () => {
    expect(page).toContain('diff.caption file=flows/a.yaml added=2 removed=2');
    for (const kind of ['added', 'removed'] as const) {
      const own = rows.filter((row) => row.startsWith(kind));
      expect(own).toHaveLength(2);
      for (const row of own) expect(row).toContain(`diff.${kind} `);
    }
    for (const row of rows.filter((one) => one.startsWith('same'))) expect(row).not.toContain('diff-word');
  });

  it('marks them up as inserted and deleted, as plain text, with the line numbers of both', () => {
    expect(page).toContain('<ins><code>line &lt;5></code></ins>');
    expect(page).toContain('<del><code>line 25</code></del>');
    expect(rows.find((row) => row.includes('line 25<'))).toContain('<td class="diff-number">25</td><td class="diff-number"></td>');
  });

  it('keeps what stands together in a body of its own', () => {
    expect(page.match(/<tbody>/g)).toHaveLength(2);
  });

  it('says that nothing differs when nothing does', () => {
    expect(renderToString(h(DiffView, { file: 'a', hunks: [], say: sayKey }))).toBe('<p>diff.same file=a</p>');
  });
});
