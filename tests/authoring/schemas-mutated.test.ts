// The shipped files with one key dropped or renamed, or a value of another kind in its place, drawn from a seed. What the schema
// refuses, the reader refuses: an editor never underlines what `pipit check` takes. And what the reader says of the form of a file,
// the schema says too. Next: schemas.test.ts.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { isScalar, type Pair, parseDocument, visit } from 'yaml';
import { schemaNames } from '../../src/authoring/schemas/schema-for.ts';
import { errorsIn, kindOf, refusalOf, shipped } from './schema-files.ts';

const runs = 250;
const filesByKind = new Map(schemaNames.map((name) => [name, shipped.filter((file) => kindOf(file.name) === name)]));

type Change = 'drop' | 'rename' | { readonly value: unknown };
const changes: readonly Change[] = [
  'drop',
  'rename',
  { value: 'gibberish' },
  { value: [{ strange: 'thing' }] },
  { value: { strange: ['thing'] } },
];

const anyEdit = fc
  .constantFrom(...schemaNames)
  .chain((kind) =>
    fc.record({ file: fc.constantFrom(...(filesByKind.get(kind) ?? [])), at: fc.nat(), change: fc.constantFrom(...changes) }),
  );

/** The file with its pair of that number changed, modulo the pairs that it has; and what was done, for a failing run. */
function edited(text: string, at: number, change: Change): { text: string; value: unknown; key: string } {
  const document = parseDocument(text);
  const pairs: Pair[] = [];
  visit(document, { Pair: (_, pair) => void pairs.push(pair) });
  const pair = pairs[at % pairs.length]!;
  const key = isScalar(pair.key) ? String(pair.key.value) : '';
  if (change === 'drop') visit(document, { Pair: (_, one) => (one === pair ? visit.REMOVE : undefined) });
  else if (change === 'rename') pair.key = document.createNode(`${key}x`);
  else pair.value = document.createNode(change.value);
  return { text: document.toString({ lineWidth: 0 }), value: document.toJS(), key };
}

/** What the reader steps over in silence: bands that are one word, of which it then reads none. */
const steppedOver = (key: string, change: Change) => key === 'bands' && typeof change === 'object' && change.value === 'gibberish';

/** What is said of the form alone, which needs no other file. */
const ofForm = new RegExp(
  [
    '^yaml/',
    '^condition/(empty|unknown-list)$',
    '^protocol/(no-line|no-switch|rule-without-urgency|wrong-time|not-a-range|not-a-duration|not-an-advice-key)$',
    '^flow/(step-kind|not-for-this-step|nothing-asked)$',
    '^follow-up/(not-a-time|not-a-time-of-day|no-steps|asks-nobody)$',
  ].join('|'),
);

it('is refused by the reader when the schema refuses it, and by the schema when its form is at fault', () => {
  let refused = 0;
  fc.assert(
    fc.property(anyEdit, ({ file, at, change }) => {
      const { text, value, key } = edited(file.text, at, change);
      fc.pre(!steppedOver(key, change));
      const refusal = refusalOf(kindOf(file.name), value);
      const errors = errorsIn({ name: file.name, text });
      if (refusal === null) expect(errors.filter(({ code }) => ofForm.test(code)).map(({ what }) => what)).toEqual([]);
      else expect(errors, refusal).not.toEqual([]);
      refused += refusal === null ? 0 : 1;
    }),
    { numRuns: runs },
  );
  expect(refused).toBeGreaterThan(runs / 4);
});
