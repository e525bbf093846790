// No regular expression takes longer than in proportion to what it is given: each is looked at by a checker that searches for texts on
// which it goes back and forth. One that is found is mended so that each place in a text is looked at from one start only, such as
// /(?<!x)x+$/ for /x+$/. Next: regular-expressions.ts.

import { describe, expect, it } from 'vitest';
import { leafPatterns } from '../../src/authoring/schemas/condition.ts';
import { schemaNamed, schemaNames } from '../../src/authoring/schemas/schema-for.ts';
import { codeDigits, codeLetters } from '../../src/dialog/examination.ts';
import { typography } from '../../src/messages/typography.ts';
import { type Literal, regularExpressionsIn } from './regular-expressions.ts';
import { filesUnder } from './tree.ts';

// The checker's own JavaScript: it would look for a program of the machine otherwise.
process.env.RECHECK_BACKEND = 'pure';
const { checkSync } = await import('recheck');

/** What repeats nothing without end is not looked at: it takes no longer than it is long itself. */
const repeats = /[*+]|,\}/;

/** Its search is bounded by time: on a busy machine it takes for slow, now and then, what is not. What is slow it finds each time. */
const looks = 3;

/** What the checker says against it; undefined: nothing. A checker that cannot tell says so. */
function faultOf({ place, source, flags }: Literal): string | undefined {
  if (!repeats.test(source)) return undefined;
  let found = checkSync(source, flags, { timeout: 30_000 });
  for (let look = 1; look < looks && found.status !== 'safe'; look += 1) found = checkSync(source, flags, { timeout: 30_000 });
  if (found.status === 'safe') return undefined;
  return `${place}  /${source}/${flags}  ${found.status === 'unknown' ? `not known: ${found.error.kind}` : found.complexity.summary}`;
}

const { literals, made } = regularExpressionsIn(filesUnder('src').filter((path) => /\.(tsx?|mjs)$/.test(path)));

function patternsOf(schema: unknown): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const own = 'pattern' in schema && typeof schema.pattern === 'string' ? [schema.pattern] : [];
  return [...own, ...Object.values(schema).flatMap(patternsOf)];
}

/** Those that are made of parts, by the file that makes them, as they come out. */
const madeOf: Readonly<Record<string, readonly string[]>> = {
  'src/authoring/schemas/condition.ts': leafPatterns,
  'src/authoring/schemas/schema-for.ts': ['^flows/protocol/classifications/[^/]+\\.yaml$'],
  // What the schemas of all files hold comes out as patterns of JSON Schema.
  'src/authoring/schemas/shapes.ts': [...new Set(schemaNames.flatMap((name) => patternsOf(schemaNamed(name))))].filter(
    (pattern) => pattern !== leafPatterns.join('|'),
  ),
  'src/dialog/code-in.ts': [`^([${codeDigits}][${codeLetters}]{2})(?:[\\s:,.!-]+(.*))?$`],
  'src/messages/gsm7.ts': [`\r\n|[${[...typography.keys()].join('')}]`],
};

describe('regular expressions of src', () => {
  it('are found', () => {
    expect(literals.length).toBeGreaterThan(200);
    expect(patternsOf(schemaNamed('flow')).length).toBeGreaterThan(0);
  });

  it('take time in proportion to their text', { timeout: 240_000 }, () => {
    expect(literals.flatMap((literal) => faultOf(literal) ?? [])).toEqual([]);
  });

  it('are known where they are made of parts, and take time in proportion as well', { timeout: 240_000 }, () => {
    expect([...new Set(made)].sort()).toEqual(Object.keys(madeOf));
    const parts = Object.entries(madeOf).flatMap(([place, sources]) => sources.map((source) => ({ place, source, flags: 'su' })));
    expect(parts.flatMap((literal) => faultOf(literal) ?? [])).toEqual([]);
  });
});

it.each(['^(a+)+$', '\\s+$', '(a|aa)+b', '^(\\d*)(\\d*)x'])('/%s/ is found to take too long', (source) => {
  expect(faultOf({ place: 'here', source, flags: '' })).toContain('here');
});
