// What may come out of a phone: nonsense in any script, digits, commands, answers that could be right, and the digits of
// the question that stands. Weighted so that an examination gets somewhere. Next: any-reply.test.ts, any-turn.test.ts.

import fc from 'fast-check';
import type { Catalogues } from '../../src/messages/catalogue.ts';

export type Event =
  | { readonly kind: 'text'; readonly text: string }
  /** The digit that stands at this place among those the last reply showed. */
  | { readonly kind: 'shown'; readonly at: number }
  /** The code of a baby, and what is said after it. */
  | { readonly kind: 'code'; readonly rest: string }
  | { readonly kind: 'dial' }
  | { readonly kind: 'drop' }
  | { readonly kind: 'switch' }
  | { readonly kind: 'wait'; readonly hours: number };

/** Every word that gives a command in a language that is there. */
export function commandWords({ byTag }: Catalogues): string[] {
  return [...byTag.values()].flatMap(({ keywords }) => [...keywords.values()].flat());
}

const plausible = [
  [
    'BABY 1 0430 39 3100',
    '1 0430 39 3100',
    '2 5h 34+2 1.9kg',
    '3 yesterday 2300 41 4200',
    'girl 2h 31 1200',
    '2 24/11 0430 24 700',
    'BABY',
  ],
  [
    '36.8 44 132',
    '38.9 66 190',
    '35.0 20 80',
    '36*8*44*132',
    '369',
    '98.4f 22/30s 130',
    '132 44 36.8',
    '- - -',
    'T36.8',
    'R44 P132',
    'BW2900 C77',
    'T35 R70 0',
    '1 T77',
    '2 R440 foo',
  ],
  ['64', '72', '2.8', '4', '19', '38.5', '0.5', '8 9', '3 1.5', '5', '1 2', '13', '08', '9', '123456789', '10', '45'],
  ['-', '-', '0', '0', '0', '0', '1', '2', '3', 'yes', 'none', 'unclear', 'YES 0', '0 0 0'],
].flat();

/** Answers about a referral, and words for the nurse. */
const afterCode = ['', '', '', ' 1', ' 2', ' 3', ' 31', ' 4', ' 44', ' 5', ' 9', ' is worse', '.', ' \u{1f476}'];
/** With a code before or in them; the last is a unit as well. */
const withCode = ['3AC', '9XY', 'RECHECK 7FK', 'VISIT 7FK', 'RECHECK 9XY', 'VISIT 9XY', '5EE', '2MM', '8JJ', '4DD', '6HH', '5HR'];

const unhappy = [
  '',
  ' ',
  '👶🏿',
  'مولود ١٢',
  '१ ०४३०',
  '__proto__',
  'constructor',
  'x'.repeat(10_000),
  '9'.repeat(400),
  '*',
  '#',
  '*#*',
  '1e9',
  '-1',
  '\0',
  '\ud83d',
  'T',
  'T-',
  '🤒'.repeat(60),
];

/**
 * No text holds the marks by which a test knows a broken reply, for what cannot be read is quoted back.
 *
 * Takes  words: commands of every language.
 */
export function anyText(words: readonly string[]): fc.Arbitrary<string> {
  const arbitrary = fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...plausible) },
    { weight: 2, arbitrary: fc.constantFrom(...words, '00', '99', '?', '1', '2') },
    { weight: 1, arbitrary: fc.constantFrom('LIST', ...withCode) },
    { weight: 1, arbitrary: fc.constantFrom(...unhappy) },
    { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 40 }) },
    { weight: 1, arbitrary: fc.string({ unit: fc.constantFrom(...'0123456789 ./,*-+oOl'), maxLength: 14 }) },
  );
  return arbitrary.map((text) => text.replace(/[{}[\]]|undefined|null|NaN/gu, ''));
}

export function anyEvents(words: readonly string[], maxLength: number): fc.Arbitrary<Event[]> {
  const event: fc.Arbitrary<Event> = fc.oneof(
    { weight: 5, arbitrary: fc.record({ kind: fc.constant('text' as const), text: anyText(words) }) },
    { weight: 6, arbitrary: fc.record({ kind: fc.constant('shown' as const), at: fc.nat(9) }) },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant('code' as const), rest: fc.constantFrom(...afterCode) }) },
    {
      weight: 1,
      arbitrary: fc.constantFrom<Event>(
        { kind: 'dial' },
        { kind: 'drop' },
        { kind: 'switch' },
        { kind: 'wait', hours: 1 },
        { kind: 'wait', hours: 30 },
      ),
    },
  );
  return fc.array(event, { minLength: 1, maxLength, size: 'max' });
}

/** What is sent. Takes  digits: those that the last reply showed. code: a baby's that is known. */
export function textOf(event: Event, digits: readonly string[], code: string): string {
  switch (event.kind) {
    case 'text':
      return event.text;
    case 'shown':
      return digits[event.at % Math.max(digits.length, 1)] ?? '0';
    case 'code':
      return `${code}${event.rest}`;
    default:
      return '';
  }
}

/** The digits that a reply offers, in their order, in whatever script it writes them. */
export function shownDigits(reply: string): string[] {
  return [...reply.matchAll(/(?<=^|[\s(])(\p{Nd}) (?=\S)/gu)].map(([, digit]) => digit ?? '');
}
