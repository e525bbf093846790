// Text that nobody would write: noise, and what hostile or broken senders put into otherwise good text. Next: mutate.ts.

import type { Chance } from '../simulation/chance.ts';

/** Where the ten digits of a script begin. */
const zeros = [0x30, 0x660, 0x6f0, 0x7c0, 0x966, 0x9e6, 0xe50, 0xff10, 0x104a0, 0x1d7ce, 0x1d7d8, 0x1e950] as const;
/** What looks like a digit and is none, or counts as a number without being one. */
const lookalikes = [...'OoQlI|SsBZОоІӀᏮ²³¹½①⑨ⅣⅫ⁵₆'];
/** What nobody sees. */
export const unseen = [
  0x200b, 0x200c, 0x200d, 0x200e, 0x202e, 0x2060, 0x2066, 0x2069, 0xfeff, 0xad, 0x180e, 0xfe0f, 0x20e3, 0xe0041, 0x61c,
].map((code) => String.fromCodePoint(code));
/** Names by which a careless program reaches what every object has. */
export const prototypeNames = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  'valueOf',
  '__defineGetter__',
] as const;

const oddities = [
  ...[
    '',
    ' ',
    '\0',
    '\r\n',
    '\n',
    '\t',
    '\u2028',
    '\u0085',
    '\ud83d',
    '\udc76',
    '\ufffe',
    '👶🏿',
    '\u{1f468}\u200d\u{1f469}',
    'e\u0301\u0301\u0301',
  ],
  ...[
    '*',
    '#',
    '*#*',
    '/',
    '//',
    '-',
    '--',
    '+',
    '%',
    '%00',
    '%E0%A4%A',
    '%u0041',
    '&',
    '=',
    ';',
    ',',
    "'",
    '"',
    '`',
    '\\',
    '$',
    '{}',
    '[]',
    '()',
    '<',
    '>',
  ],
  ...[
    'NaN',
    'Infinity',
    '-0',
    '1e9',
    '1e-7',
    '0x10',
    '1_000',
    '9'.repeat(30),
    '0.1.2',
    '..',
    '.,.',
    '1/0',
    '$&',
    "$'",
    '{code}',
    '#{7*7}',
    '=1+1',
    '@SUM(1)',
  ],
  ...['مولود', 'हिन्दी', 'ﷺ', 'İ', 'ß', 'ſ', 'K', 'ǆ', '︙'],
  ...prototypeNames,
];

export function digitIn(chance: Chance, digit: number): string {
  return chance.is(0.1) ? chance.pick(lookalikes) : String.fromCodePoint(chance.pick(zeros) + digit);
}

/** One odd thing, to be put somewhere. */
export function oddity(chance: Chance): string {
  const kind = chance.next();
  if (kind < 0.25) return chance.pick(unseen);
  if (kind < 0.4) return digitIn(chance, chance.whole(0, 9));
  if (kind < 0.85) return chance.pick(oddities);
  return String.fromCodePoint(anyCodePoint(chance));
}

function anyCodePoint(chance: Chance): number {
  const [low, high] = chance.pick([
    [0x20, 0x7e],
    [0, 0x1f],
    [0xa0, 0x24f],
    [0x370, 0x6ff],
    [0x900, 0x97f],
    [0x2000, 0x2bff],
    [0xd800, 0xdfff],
    [0xfe00, 0xffff],
    [0x1f300, 0x1faff],
    [0, 0x10ffff],
  ] as const);
  return chance.whole(low, high);
}

/** Nothing but noise, mostly short, now and then as long as a form may hold. */
export function noise(chance: Chance): string {
  const length = chance.is(0.02) ? chance.whole(500, 4_000) : chance.whole(0, 30);
  if (chance.is(0.2)) return oddity(chance).repeat(Math.min(length, 4_000));
  const alphabet = chance.is(0.3) ? [...'0123456789 ./,*-+oOlI'] : undefined;
  return Array.from({ length }, () => (alphabet === undefined ? oddity(chance) : chance.pick(alphabet))).join('');
}
