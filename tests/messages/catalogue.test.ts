import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Say } from '../../src/dialog/reply.ts';
import { findCatalogue, type Sayable, say, withoutDrafts } from '../../src/messages/catalogue.ts';
import { catalogueOf, cataloguesOf } from './speak.ts';

const en = catalogueOf('en', {
  'ask.colour.title': 'COLOUR by daylight',
  'tell.fast': '{count} is fast.',
  'tell.because': 'REFER NOW: {signs} at {age}.',
  'sign.grunting': 'grunting',
  'sign.fast': 'fast breathing ({count})',
  'age.hours': '{hours} h',
});
const sw = catalogueOf('sw', {
  'ask.colour.title': 'RANGI',
  'sign.grunting': 'anakoroma',
  'tell.because': 'PELEKA: {signs}, {age}.',
  'list.joiner': ' na ',
});
const ar = catalogueOf('ar', { 'tell.fast': '{count} سريع' }, { digits: '٠١٢٣٤٥٦٧٨٩', draft: true, alphabet: 'ucs-2' });
const all = cataloguesOf(en, sw, ar);

describe('say', () => {
  it('says a key in the language asked for', () => {
    expect(say(all, 'sw', 'ask.colour.title')).toBe('RANGI');
  });

  it('says it in the base language when the language lacks it', () => {
    expect(say(all, 'sw', 'tell.fast', { count: 66 })).toBe('66 is fast.');
  });

  it('says the last part of a key that nobody has', () => {
    expect(say(all, 'sw', 'sign.chest-indrawing')).toBe('chest indrawing');
    expect(say(all, 'sw', '__proto__')).toBe('__proto__');
    expect(say({ base: 'en', byTag: new Map() }, 'en', 'a.b')).toBe('b');
  });

  it('puts values that are things to say into words first, and joins a list as the language does', () => {
    const values = {
      signs: [{ key: 'sign.grunting' }, { key: 'sign.fast', values: { count: 66 } }],
      age: { key: 'age.hours', values: { hours: 5 } },
    };
    expect(say(all, 'en', 'tell.because', values)).toBe('REFER NOW: grunting, fast breathing (66) at 5 h.');
    expect(say(all, 'sw', 'tell.because', values)).toBe('PELEKA: anakoroma na fast breathing (66), 5 h.');
  });

  it('takes what the dialog says as it is: the two shapes are one', () => {
    const fromDialog: Say = { key: 'sign.fast', values: { count: 66 } };
    const sayable: Sayable = fromDialog;
    const back: Say = sayable;
    expect(say(all, 'en', back.key, back.values)).toBe('fast breathing (66)');
  });

  it('shows the name of a place without a value', () => {
    expect(say(all, 'en', 'tell.fast')).toBe('count is fast.');
    expect(say(all, 'en', 'tell.fast', { count: Number.NaN })).toBe('count is fast.');
  });

  it('writes numbers in own digits, in the base language\u2019s when it speaks instead', () => {
    expect(say(all, 'ar', 'tell.fast', { count: 66 })).toBe('٦٦ سريع');
    expect(say(all, 'ar', 'age.hours', { hours: 5 })).toBe('5 h');
  });

  it('ends on a value that holds itself', () => {
    const values: Record<string, Sayable> = {};
    values.count = { key: 'tell.fast', values };
    expect(say(all, 'en', 'tell.fast', values)).toMatch(/^fast( is fast\.)+$/);
  });

  it('never throws and always gives text, whatever the key and the values', () => {
    const keys = fc.oneof(fc.constantFrom(...en.messages.keys(), '__proto__', 'constructor', ''), fc.string());
    const odd = fc.oneof(fc.anything(), fc.dictionary(fc.constantFrom('count', 'signs', 'age', 'key', '__proto__'), fc.anything()));
    fc.assert(
      fc.property(
        fc.oneof(fc.constantFrom('en', 'sw', 'ar', 'sw-KE', '', '-', '__proto__'), fc.string()),
        keys,
        odd,
        (tag, key, values) => {
          expect(typeof say(all, tag, key, values as Sayable['values'])).toBe('string');
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe('findCatalogue', () => {
  it.each([
    ['sw', 'sw'],
    ['sw-KE', 'sw'],
    ['sw-Latn-KE', 'sw'],
    ['rw', 'en'],
    ['', 'en'],
    ['-', 'en'],
  ])('serves %j by %s', (tag, served) => {
    expect(findCatalogue(all, tag)?.tag).toBe(served);
  });
});

describe('withoutDrafts', () => {
  it('serves the base language where a draft was', () => {
    expect(say(withoutDrafts(all), 'ar', 'tell.fast', { count: 66 })).toBe('66 is fast.');
  });
});
