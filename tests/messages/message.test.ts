import fc from 'fast-check';
import { IntlMessageFormat } from 'intl-messageformat';
import { describe, expect, it } from 'vitest';
import { placesOf, readMessage } from '../../src/messages/message.ts';
import { inDigits, render, type Value } from '../../src/messages/render.ts';
import { messageOf } from './speak.ts';

const fill = (text: string, values: Record<string, Value>, tag = 'en', digits?: string): string =>
  render(messageOf(text), { tag, ...(digits !== undefined && { digits }) }, (name) => values[name]);

describe('readMessage', () => {
  it('keeps a message without places as ready text, made plain', () => {
    expect(messageOf('Wash hands \u2013 warm baby\u2026').fixed).toBe('Wash hands - warm baby...');
    expect(messageOf('{weight} g').fixed).toBeNull();
  });

  it('names the places of every branch and how they are used', () => {
    const places = placesOf(
      messageOf('{n, plural, one {{who}} other {# {sex, select, girl {a {name}} other {b}}}} {m} {m, select, other {}}'),
    );
    expect([...places]).toEqual([
      ['n', 'plural'],
      ['who', 'place'],
      ['sex', 'select'],
      ['name', 'place'],
      ['m', 'place'],
    ]);
  });

  it.each([
    ['{n, number}', 'number'],
    ['{d, date, short}', 'date'],
    ['{t, time}', 'time'],
    ['{n, selectordinal, other {#th}}', 'selectordinal'],
    ['{s, select, a {{n, number, ::currency/USD}} other {}}', 'number'],
  ])('refuses the form in %s', (text, form) => {
    expect(readMessage(text)).toMatchObject({ message: null, faults: [{ kind: 'form', form }] });
  });

  it.each([
    ['{a', 'EXPECT_ARGUMENT_CLOSING_BRACE', 0, 2],
    ['ab {}', 'EMPTY_ARGUMENT', 3, 5],
    ['{s, select, a {x}}', 'MISSING_OTHER_CLAUSE', 17, 17],
    ['{n, spellout}', 'INVALID_ARGUMENT_TYPE', 4, 12],
  ])('says where %s is no message', (text, icu, from, to) => {
    expect(readMessage(text)).toEqual({ message: null, faults: [{ kind: 'syntax', icu, from, to }] });
  });

  it('notices an apostrophe that turns a place into plain text', () => {
    expect(readMessage("Poids de l'{name}")).toMatchObject({ faults: [{ kind: 'quoted-place', name: 'name', from: 10, to: 17 }] });
    expect(readMessage("Poids de l''{name}").faults).toEqual([]);
  });

  it('notices a bracket that closes nothing, and lets a quoted one be', () => {
    expect(readMessage('a} b')).toMatchObject({ faults: [{ kind: 'stray-bracket', from: 1, to: 2 }] });
    expect(readMessage("a'}' b").faults).toEqual([]);
  });

  it('takes tags for plain text', () => {
    expect(messageOf('under <35.5').fixed).toBe('under <35.5');
  });

  it('reads any text without a throw', () => {
    const scraps = fc.constantFrom(
      '{',
      '}',
      "'",
      'n',
      ', ',
      'plural',
      'select',
      'other',
      '#',
      'one',
      '=1',
      ' ',
      '<b>',
      'offset:1',
      'number',
      '::',
      '😀',
      '\ud83d',
    );
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: scraps })), (text) => {
        const { message, faults } = readMessage(text);
        expect(message !== null || faults.length > 0).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('render', () => {
  it.each([
    ['{n, plural, =0 {none} one {# text} other {# texts}}', { n: 0 }, 'none'],
    ['{n, plural, =0 {none} one {# text} other {# texts}}', { n: 1 }, '1 text'],
    ['{n, plural, =0 {none} one {# text} other {# texts}}', { n: '1' }, '1 text'],
    ['{g, plural, one {# gram} other {# grams}}', { g: 3100 }, '3100 grams'],
    ['{n, plural, offset:1 =0 {no} one {you and # more} other {you and # more!}}', { n: 2 }, 'you and 1 more'],
    ['{sex, select, girl {her} boy {his} other {its}} name', { sex: 'boy' }, 'his name'],
    ['{sex, select, girl {her} boy {his} other {its}} name', { sex: 'toString' }, 'its name'],
    ['{temp} C', { temp: 36.8 }, '36.8 C'],
  ])('fills %s', (text, values, expected) => {
    expect(fill(text, values)).toBe(expected);
  });

  it.each([
    ['{weight} g', 'weight g'],
    ['{n, plural, one {# text} other {# texts}}', 'n texts'],
    ['{sex, select, girl {her} other {its}} cord', 'its cord'],
  ])('shows the name of a place in %s that has no value', (text, expected) => {
    expect(fill(text, {})).toBe(expected);
    expect(fill('{weight} g', { weight: Number.NaN })).toBe('weight g');
  });

  it('writes numbers in the language\u2019s own digits, and leaves strings alone', () => {
    const arabic = '٠١٢٣٤٥٦٧٨٩';
    expect(fill('{n} {s} {n, plural, one {#} other {#}}', { n: 36.8, s: 'T 36' }, 'ar', arabic)).toBe('٣٦.٨ T 36 ٣٦.٨');
    expect(inDigits('07', '𞥐𞥑𞥒𞥓𞥔𞥕𞥖𞥗𞥘𞥙')).toBe('𞥐𞥗');
  });

  it('agrees with intl-messageformat wherever both may be asked', () => {
    const texts = [
      'a {x} b',
      '{n, plural, =0 {none} one {# text {x}} two {# twins} few {# few} many {# many} other {# texts}}',
      '{x, select, girl {she} boy {he} other {it}} {n, plural, offset:1 one {#} other {{x} #}}',
      "l''{x} '{'ok'}' # {n}",
    ];
    const values = fc.record({ n: fc.integer({ min: 1, max: 999 }), x: fc.constantFrom('girl', 'boy', 'amina', '') });
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.constantFrom('en', 'sw', 'ar', 'am', 'fr', 'so'), values, (text, tag, given) => {
        // Latin digits are asked for, because our digits are the catalogue's, not the runtime's; and no count below 0 or
        // above 999, where Intl adds direction marks and separators that no cheap text holds.
        const theirs = new IntlMessageFormat(text, `${tag}-u-nu-latn`, undefined, { ignoreTag: true }).format(given);
        expect(fill(text, given, tag)).toBe(theirs);
      }),
      { numRuns: 500 },
    );
  });
});
