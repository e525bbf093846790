// Files that are nested far deeper than any that a coordinator writes are refused before they are parsed: the parser would not come back.

import { expect, it } from 'vitest';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readYaml } from '../../src/authoring/yaml-source.ts';

const codesOf = (text: string): string[] => {
  const found: Diagnostic[] = [];
  readYaml({ name: 'flows/any.yaml', text }, (diagnostic) => found.push(diagnostic));
  return found.map(({ code }) => code);
};

it.each(['[', '{a: ', '[{', '- ', '? ', '- ? ', '&a [', '!!seq [', ' '])('refuses 60,000 of %j in words', (piece) => {
  expect(codesOf(`${piece.repeat(60_000)}a`)).toEqual(['yaml/too-deep']);
});

it('refuses names that are each further in than the last', () => {
  expect(codesOf(Array.from({ length: 400 }, (_, at) => `${' '.repeat(at)}a:`).join('\n'))).toEqual(['yaml/too-deep']);
});

it('says where it is too deep', () => {
  const found: Diagnostic[] = [];
  readYaml({ name: 'flows/any.yaml', text: `flow: a\nsteps: ${'['.repeat(80)}` }, (diagnostic) => found.push(diagnostic));
  expect(found[0]?.range.start).toEqual({ line: 2, column: 72 });
});

it('reads brackets that stand beside each other, in quotes, in comments and in texts', () => {
  const many = ['[a]', '"[[["', "'{{{'", 'x [ y', '{ a: [b] }'].flatMap((value, at) =>
    Array.from({ length: 90 }, (_, i) => `k${at}-${i}: ${value} # [[`),
  );
  expect(codesOf(many.join('\n'))).toEqual([]);
});

it('names the first ten faults of a file that cannot be read', () => {
  expect(codesOf(`a: [\n${'b: c: d: {\n'.repeat(50)}`).length).toBe(10);
});
