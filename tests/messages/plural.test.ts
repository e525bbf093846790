import { describe, expect, it } from 'vitest';
import { isKnownLanguage, pluralForm, pluralForms } from '../../src/messages/plural.ts';

describe('pluralForms', () => {
  // Source: Unicode CLDR plural rules, as built into the runtime; the Arabic row is the one with every form.
  it.each([
    ['en', ['one', 'other']],
    ['sw', ['one', 'other']],
    ['fr', ['one', 'other']],
    ['yo', ['other']],
    ['ar', ['few', 'many', 'one', 'other', 'two', 'zero']],
  ])('of %s are %j', (tag, forms) => {
    expect(pluralForms(tag).sort()).toEqual(forms);
  });

  it('are only `other` in a language the runtime does not know, whatever the machine speaks', () => {
    expect(isKnownLanguage('rw')).toBe(false);
    expect(pluralForms('rw')).toEqual(['other']);
    expect(pluralForm('rw', 1)).toBe('other');
  });

  it('are only `other` for what is no tag at all', () => {
    expect(pluralForm('__proto__', 1)).toBe('other');
  });
});
