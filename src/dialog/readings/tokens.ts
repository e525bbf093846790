// From what a phone sends to the pieces that readers take. Tolerant of keypads: digits of any script, O for 0 and l for 1
// beside digits, odd dashes, points and spaces. Never guesses at meaning; that is for the readers beside this file.
// Next: words.ts, amount.ts.

import type { Words } from './words.ts';

/** The same mark as other keyboards write it. Vowel signs, hamza and the like are letters and stay. */
const marks: readonly (readonly [RegExp, string])[] = [
  [/[\u2010-\u2015\u2212]/g, '-'],
  [/[\u00B7\u066B\u2219\u22C5]/g, '.'],
  [/[\u060C\u066C]/g, ','],
  [/[\u061B\u0964]/g, ';'],
  [/\u061F/g, '?'],
  [/\u066A/g, '%'],
  [/[\u2018\u2019]/g, "'"],
  [/[\u2044\u2215]/g, '/'],
];

/** Joiners and soft hyphens inside a word, what makes an emoji of a digit, and degree signs. */
const unseen = /\u00AD|\u200C|\u200D|\u20E3|[\uFE00-\uFE0F]|[\u00B0\u00BA\u02DA]/g;

/** Has nothing that is written in more than one way but spaces and case, as most answers. */
const isPlain = /^[ -~]*$/;

/** Lower case, one kind of space, dash and point, ASCII digits; control characters, joiners and the dress of emoji are gone. */
export function normalise(text: string): string {
  if (isPlain.test(text)) return text.replace(/ +/g, ' ').trim().toLowerCase();
  const plain = text
    .normalize('NFC')
    .replace(unseen, '')
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/gu, ' ')
    .replace(/[\uFF01-\uFF5E]/g, (wide) => String.fromCharCode(wide.charCodeAt(0) - 0xfee0))
    .replace(/\p{Nd}/gu, toAsciiDigit);
  return marks
    .reduce((said, [mark, same]) => said.replace(mark, same), plain)
    .replace(/\s+/gu, ' ')
    .trim()
    .toLowerCase();
}

const asciiDigits = new Map<string, string>();

/** Unicode lays every set of ten digits out in order, one set after another, so a digit is its distance to the first, by tens. */
function toAsciiDigit(digit: string): string {
  const known = asciiDigits.get(digit);
  if (known !== undefined) return known;
  const code = digit.codePointAt(0) ?? 0;
  let first = code;
  while (/\p{Nd}/u.test(String.fromCodePoint(first - 1))) first -= 1;
  const ascii = String((code - first) % 10);
  asciiDigits.set(digit, ascii);
  return ascii;
}

/**
 * Pieces between spaces and semicolons, with O and l mended where they stand for digits.
 *
 * Takes    words: the worker's language. With it, readings of several words ("not known") are one piece, and a letter that is
 *          a word or a label there is left alone.
 */
export function tokens(text: string, words?: Words): string[] {
  const split = normalise(text)
    .replace(/(?<=\d) ?(?:(\/) ?(?=[\p{L}\d])|(\+) ?(?=\d))/gu, '$1$2')
    .split(/[ ;]+/)
    .map(withoutPunctuation)
    .filter((token) => token !== '');
  const joined = words === undefined ? split : joinPhrases(split, words);
  const mended = joined.map(mendDigits);
  const speaksDigits = mended.some((token) => /\d/.test(token)) || mended.every((token) => aloneForDigit.test(token));
  return speaksDigits ? mended.map((token) => mendAlone(token, words)) : mended;
}

/** `36.8,` and `t:` end where the sentence did; `,44` begins after a comma. */
function withoutPunctuation(token: string, at: number): string {
  let end = token.length;
  while (end > 1 && '.,:=!'.includes(token.charAt(end - 1))) end -= 1;
  const ended = token.slice(0, end);
  return at === 0 ? ended : ended.replace(/^,+/, '');
}

/** O, l and I for 0 and 1 beside digits: `36.o`, `l32`, `1oo`. A letter before them makes them part of a word: `spo2`. */
function mendDigits(token: string): string {
  if (!/\d/.test(token)) return token;
  return token.replace(/(?<![\p{L}\p{M}])[oli]+(?=[.,*:/]?\d)|(?<=\d[.,*:/]?)[oli]+/gu, toDigits);
}

const aloneForDigit = /^[oli]{1,2}$/;

/** A piece of nothing but such letters, in a message of digits. */
function mendAlone(token: string, words: Words | undefined): string {
  if (!aloneForDigit.test(token)) return token;
  return words !== undefined && spokenIn(words).all.has(token) ? token : toDigits(token);
}

function toDigits(letters: string): string {
  return letters.replaceAll('o', '0').replace(/[li]/g, '1');
}

interface Spoken {
  /** All that the language gives a meaning to inside an answer. */
  readonly all: ReadonlySet<string>;
  /** What of it is several words, the longest first. */
  readonly phrases: readonly (readonly string[])[];
}

/** A function of the words alone, kept as long as they are. */
const spoken = new WeakMap<Words, Spoken>();

function spokenIn(words: Words): Spoken {
  const known = spoken.get(words);
  if (known !== undefined) return known;
  const { readings, labels, regions, signs } = words;
  const all = new Set([...Object.values(readings).flat(), ...labels.keys(), ...regions.keys(), ...signs.keys()]);
  const phrases = [...all].filter((phrase) => phrase.includes(' ')).map((phrase) => phrase.split(' '));
  const made = { all, phrases: phrases.sort((a, b) => b.length - a.length) };
  spoken.set(words, made);
  return made;
}

/** Neighbours that the language reads together become one piece, the longest first. */
function joinPhrases(split: readonly string[], words: Words): string[] {
  const { phrases } = spokenIn(words);
  if (phrases.length === 0) return [...split];
  const pieces: string[] = [];
  for (let at = 0; at < split.length; ) {
    const phrase = phrases.find((one) => one.every((word, i) => split[at + i] === word));
    pieces.push(phrase?.join(' ') ?? split[at] ?? '');
    at += phrase?.length ?? 1;
  }
  return pieces;
}
