// What an editor offers at a place of a file, read off its schema. Next: schemas.test.ts, whether the schemas are right.

import { describe, expect, it } from 'vitest';
import { type Completions, completionsFor, type Path } from '../../src/authoring/schemas/completions.ts';
import { type SchemaName, schemaNamed, schemaNames } from '../../src/authoring/schemas/schema-for.ts';
import { textOf } from '../architecture/tree.ts';

const at = (kind: SchemaName, path: Path): Completions => completionsFor(schemaNamed(kind), path);
const texts = (completions: readonly { readonly text: string }[]): string[] => completions.map(({ text }) => text);
const lists = ['any', 'all', 'none', 'two-of'];

describe('the keys that are offered', () => {
  it.each([
    ['at the top', 'flow', [], ['flow', 'looks-again', 'steps']],
    ['in an item of a list', 'needs', ['needs', 0], ['finding', 'when']],
    ['in the one thing that stands in place of a list', 'needs', ['needs'], ['finding', 'when']],
    ['under a name that the author gives', 'rows', ['rows', 'TEMP-01'], ['proof', 'source']],
    [
      'of every form that an item may have',
      'classifications',
      ['cold', 2, 'rules', 0],
      'urgent rows refer within treat recheck routine'.split(' '),
    ],
    ['behind what other kinds share', 'conditions', ['conditions', 'cold'], lists],
    ['in a condition however deep', 'conditions', ['conditions', 'cold', 'any', 3, 'all', 0, 'none', 1], lists],
    ['in the first band', 'findings', ['findings', 0, 'bands', 0], ['id', 'from', 'over', 'limit', 'routine', 'rows']],
    ['in a later band', 'findings', ['findings', 0, 'bands', 7], ['id', 'from', 'over', 'limit', 'routine', 'rows']],
    ['of two shapes at once', 'limits', ['limits', 'fast-breathing', 'moved', 0], ['from', 'over', 'never']],
    ['nowhere in a text', 'needs', ['needs', 0, 'finding'], []],
    ['nowhere below a name that there is not', 'needs', ['need', 0], []],
    ['nowhere in a list where there is a map', 'needs', [0], []],
    ['nowhere under a name of every object', 'flow', ['constructor'], []],
  ] as const)('%s (%s)', (_where, kind, path, keys) => {
    expect(texts(at(kind, path).keys)).toEqual(keys);
  });

  it('say which of them are needed', () => {
    const needed = (kind: SchemaName, path: Path) => texts(at(kind, path).keys.filter((key) => key.needed));
    expect(needed('findings', ['findings', 0])).toEqual(['finding', 'group', 'kind', 'at']);
    expect(needed('flow', ['steps', 0])).toEqual(['step']);
  });

  it('say what they mean: what stands at the key, not what is said of the shape it shares', () => {
    const [, when] = at('needs', ['needs', 0]).keys;
    expect(when).toEqual({ text: 'when', says: 'While this holds, the baby is not yet well.', needed: true });
  });

  it('are all explained, in every schema', () => {
    const keys = schemaNames.flatMap((kind) => {
      const { $defs } = schemaNamed(kind) as { $defs?: unknown };
      return mapsIn(schemaNamed(kind)).flatMap((map) => completionsFor({ ...map, $defs }, []).keys);
    });
    expect(texts(keys)).toContain('holds-until');
    expect(texts(keys.filter(({ says }) => says === ''))).toEqual([]);
  });
});

describe('the values that are offered', () => {
  it.each([
    ['words, each with its meaning', 'findings', ['findings', 0, 'kind'], ['sign', 'choice', 'number', 'count']],
    ['yes and no', 'findings', ['findings', 0, 'danger'], ['yes', 'no']],
    ['words of an item', 'follow-up', ['referrals', 'outcome', 0, 'asks', 1], ['receiving', 'worker', 'nurse', 'coordinator']],
    ['words that stand beside numbers', 'bilirubin', ['tables', 0, 'steps', 0, 'treatment'], ['any-yellow']],
    ['words where the reader takes any', 'findings', ['findings', 0, 'unlisted'], ['not-done']],
    ['true, false and null', 'reference-cases', ['baby', 'findings', 'grunting'], ['true', 'false', 'null']],
    ['none for a map', 'findings', ['findings', 0], []],
  ] as const)('%s (%s)', (_what, kind, path, values) => {
    expect(texts(at(kind, path).values)).toEqual(values);
  });

  it('say what they mean', () => {
    expect(at('flow', ['steps', 0, 'result']).values).toEqual([
      { text: 'urgent', says: 'Said as soon as the baby is in danger.' },
      { text: 'final', says: 'The end of the flow. The last step gives it.' },
    ]);
  });
});

describe('names of the protocol', () => {
  it.each([
    ['flow', ['steps', 3, 'mark', 0], ['finding'], ['finding']],
    ['flow', ['steps', 3, 'not-known'], ['finding'], []],
    ['limits', ['limits', 'fast-breathing', 'moved', 0], ['switch'], []],
    ['classifications', ['cold', 0, 'advice', 2], [], ['advice']],
    ['doses', ['doses', 0, 'when', 0], [], ['condition', 'leaf']],
    ['must-ask', [], ['flow'], []],
  ] as const)('are known by their kind in %s at %j', (kind, path, keyNames, valueNames) => {
    expect(at(kind, path)).toMatchObject({ keyNames, valueNames });
  });
});

describe('what a browser runs', () => {
  it('imports nothing', () => {
    expect(textOf('src/authoring/schemas/completions.ts')).not.toMatch(/^import |\bimport\(|\brequire\(/m);
  });

  it.each([
    ['a shape that is only itself', { $ref: '#/$defs/a', $defs: { a: { $ref: '#/$defs/a' } } }],
    ['shapes in a circle', { anyOf: [{ $ref: '#/$defs/a' }], $defs: { a: { allOf: [{ $ref: '#/$defs/b' }] }, b: { $ref: '#/$defs/a' } } }],
    ['a shape that there is not', { $ref: '#/$defs/a' }],
    ['a schema that allows anything', {}],
  ])('ends at %s', (_what, schema) => {
    const nothing = { keys: [], values: [], keyNames: [], valueNames: [] };
    expect(completionsFor(schema, [])).toEqual(nothing);
    expect(completionsFor(schema, ['x', 0, 'y'])).toEqual(nothing);
  });
});

/** Every part of a schema that has keys; what only tells shapes apart has none of its own. */
function mapsIn(part: unknown): object[] {
  if (typeof part !== 'object' || part === null) return [];
  const inner = Object.entries(part).flatMap(([word, one]) => (['if', 'contains'].includes(word) ? [] : mapsIn(one)));
  return 'properties' in part ? [part, ...inner] : inner;
}
