// Text as PostgreSQL can keep it: whatever a phone sends comes out without NUL and without half a surrogate pair, and
// whatever was fit already comes out as it was.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { storableJson, storableText } from '../../src/register/storable.ts';

const anyText = fc.string({ unit: 'binary' }).chain((text) => fc.constantFrom(text, `${text}\0`, `\ud800${text}`, `\\u0000${text}\\`));
const isStorable = (text: string) => !/\0|\p{Surrogate}/u.test(text);

describe('storable', () => {
  it('text holds nothing that a database refuses', () => {
    fc.assert(fc.property(anyText, (text) => isStorable(storableText(text))));
  });

  it('text that was fit is left as it is', () => {
    fc.assert(fc.property(anyText.filter(isStorable), (text) => storableText(text) === text));
  });

  it('JSON says of a value what storable text says of its strings', () => {
    fc.assert(
      fc.property(fc.array(anyText), (texts) => {
        expect(JSON.parse(storableJson(texts))).toEqual(texts.map(storableText));
      }),
    );
  });

  it('JSON of nothing is null', () => {
    expect(storableJson(undefined)).toBe('null');
  });
});
