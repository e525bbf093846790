// What a character costs in the GSM 7-bit alphabet, and how a text is made plain before it is measured or sent.
// No lengths or limits here. The table is in gsm7-alphabet.ts, the replacements in typography.ts. Next: segments.ts.

import { basicCharacters, extensionCharacters } from './gsm7-alphabet.ts';
import { typography } from './typography.ts';

export type Alphabet = 'gsm-7' | 'ucs-2';

const septets: ReadonlyMap<string, 1 | 2> = new Map([
  ...basicCharacters.map((character) => [character, 1] as const),
  ...extensionCharacters.map((character) => [character, 2] as const),
]);

/** By code: 1 where the character takes one septet. All of them lie below the end of the Greek letters. */
const takesOne = new Uint8Array(0x400);
for (const character of basicCharacters) takesOne[character.charCodeAt(0)] = 1;

/** Whether each character takes one septet, as those of most texts do: much sooner known than their sum. */
export function isBasic(text: string): boolean {
  for (let at = 0; at < text.length; at += 1) if (takesOne[text.charCodeAt(at)] !== 1) return false;
  return true;
}

/** Septets that one character takes; undefined when it is outside the alphabet and turns the whole text into UCS-2. */
export function septetsOf(character: string): 1 | 2 | undefined {
  return septets.get(character);
}

/** The alphabet a gateway chooses for this text as it stands. */
export function alphabetOf(text: string): Alphabet {
  if (isBasic(text)) return 'gsm-7';
  for (const character of text) if (!septets.has(character)) return 'ucs-2';
  return 'gsm-7';
}

/** The characters of a text that are outside GSM 7-bit, each once, in the order they are met. */
export function charactersOutside(text: string): string[] {
  return [...new Set(text)].filter((character) => !septets.has(character));
}

const controls = /(?!\n)\p{Control}/gu;
// Soft hyphen, zero-width space, invisible operators, embeddings and isolates, interlinear marks, byte order mark, tags.
const zeroWidth = /[\u00ad\u180e\u200b\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;
const variationSelectors = /[\ufe00-\ufe0f]|[\u{e0100}-\u{e01ef}]|\u034f/gu;
const noCharacters = /\p{Noncharacter_Code_Point}/gu;
const loneSurrogates = /\p{Surrogate}/gu;
// Joiners shape letters in several Indic scripts and in Persian; anywhere else they only cost.
const idleJoiners = /(?<![^\P{L}\p{Script=Latin}]|\p{M})[\u200c\u200d]/gu;
// Marks of direction are kept only where something is written from right to left.
const directionMarks = /[\u061c\u200e\u200f]/gu;
const rightToLeft = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;
const typographic = new RegExp(`\r\n|[${[...typography.keys()].join('')}]`, 'gu');
const alreadyPlain = /^[\n\x20-\x5f\x61-\x7e]*$/;

/**
 * The same words in plain characters: composed (NFC), typographic marks replaced, invisible characters and lone halves
 * of surrogate pairs removed; line feeds stay. Never changes a letter or an accent. Plain text comes back unchanged.
 */
export function toPlain(text: string): string {
  if (alreadyPlain.test(text)) return text;
  const replaced = text
    .normalize('NFC')
    .replace(typographic, (mark) => typography.get(mark) ?? '\n')
    .replace(loneSurrogates, '')
    .replace(controls, '')
    .replace(zeroWidth, '')
    .replace(variationSelectors, '')
    .replace(noCharacters, '')
    .replace(idleJoiners, '');
  return (rightToLeft.test(replaced) ? replaced : replaced.replace(directionMarks, '')).normalize('NFC');
}
