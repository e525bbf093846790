// Nothing that an author changes goes unsaid, and nothing is said of what changes no meaning: every value of the protocol's files is
// changed in turn, and every file is laid out anew without its comments.

import { describe, expect, it } from 'vitest';
import { isCollection, isNode, parseDocument, visit } from 'yaml';
import { changesBetween } from '../../src/authoring/changes/changes-between.ts';
import { protocolChanges } from '../../src/authoring/changes/protocol-changes.ts';
import { scalarsOf } from '../../src/authoring/scalars.ts';
import { readYaml, type SourceFile } from '../../src/authoring/yaml-source.ts';
import { relaid, shipped } from './changed-files.ts';

const values = (source: SourceFile): SourceFile[] => {
  const lines = source.text.split('\n');
  const all = scalarsOf(readYaml(source, () => {})!).filter(({ range }) => range.start.line === range.end.line);
  // About a dozen a file, spread over it.
  const step = Math.max(1, Math.floor(all.length / 12));
  return all
    .filter((_, at) => at % step === 0)
    .map(({ range: { start, end } }) => {
      const line = lines[start.line - 1] ?? '';
      const edited = `${line.slice(0, start.column - 1)}something-else${line.slice(end.column - 1)}`;
      return { name: source.name, text: lines.map((one, at) => (at === start.line - 1 ? edited : one)).join('\n') };
    });
};

const compared = shipped.sources.filter(({ name }) => /^flows\/(protocol|reference|reference-cases)\//.test(name));

describe('a value that is another', () => {
  it.each(compared.map((source) => [source.name, source] as const))('is told, in %s', (name, source) => {
    const edits = values(source);
    expect(edits.length).toBeGreaterThan(0);
    for (const edited of edits) {
      const changes = protocolChanges([source], [edited]);
      expect(
        changes.length,
        edited.text.split('\n').find((line) => line.includes('something-else')),
      ).toBeGreaterThan(0);
      expect(changes.every(({ file }) => file === name)).toBe(true);
    }
  });
});

/** Without comments and empty lines, and nothing between brackets. */
function laidOutAnew(text: string): string {
  const document = parseDocument(text, { schema: 'failsafe' });
  document.commentBefore = document.comment = null;
  visit(document, (_, node) => {
    if (!isNode(node)) return;
    node.comment = node.commentBefore = null;
    node.spaceBefore = false;
    if (isCollection(node)) node.flow = false;
  });
  return document.toString({ lineWidth: 0, indent: 4 });
}

describe('comments and layout', () => {
  it('are no change, though every file differs', () => {
    const bare = relaid(laidOutAnew);
    const differing = bare.sources.filter(({ text }, at) => text !== shipped.sources[at]?.text);
    expect(differing.length).toBe(shipped.sources.length);
    expect(changesBetween(shipped, bare)).toEqual([]);
  });
});
