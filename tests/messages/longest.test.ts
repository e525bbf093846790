import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { longest } from '../../src/messages/longest.ts';
import { render } from '../../src/messages/render.ts';
import { unitsOf } from '../../src/messages/segments.ts';
import { messageOf } from './speak.ts';

describe('longest', () => {
  it('fills every place with its longest text and takes the longest branch', () => {
    const message = messageOf('{sex, select, girl {she} boy {he} other {the baby}}: {n, plural, one {# text} other {# texts}}');
    expect(longest(message, { sex: 'girl', n: '99' }, 'gsm-7')).toEqual({ text: 'the baby: 99 texts', units: 18, unbounded: [] });
  });

  it('counts in the units of the alphabet, so that two euros outweigh three letters', () => {
    const message = messageOf('{s, select, a {€€} other {abc}}');
    expect(longest(message, { s: 'a' }, 'gsm-7')).toMatchObject({ text: '€€', units: 4 });
    expect(longest(message, { s: 'a' }, 'ucs-2')).toMatchObject({ text: 'abc', units: 3 });
  });

  it('names the places that have no bound, those in branches too', () => {
    const message = messageOf('{toString} {n, plural, one {{who}} other {#}}');
    expect(longest(message, {}, 'gsm-7').unbounded).toEqual(['toString', 'n', 'who']);
  });

  it('is never shorter than the message as it is said', () => {
    const message = messageOf('{s, select, a {€ {x}} b {} other {{n, plural, =0 {no baby at all} one {# baby} other {# babies {x}}}}} {x}');
    const text = fc.string({ unit: fc.constantFrom('a', '€', ' '), maxLength: 8 });
    fc.assert(
      fc.property(fc.constantFrom('a', 'b', 'c'), fc.nat(999), text, text, (s, n, x, longer) => {
        const bounds = { s: 'a', n: '999', x: x + longer };
        const said = render(message, { tag: 'en' }, (name) => ({ s, n, x })[name]);
        expect(unitsOf(said, 'gsm-7')).toBeLessThanOrEqual(longest(message, bounds, 'gsm-7').units);
      }),
    );
  });
});
