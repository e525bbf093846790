// What a character costs in the GSM 7-bit alphabet, and how a text is made plain before it is measured or sent.
// No lengths or limits here. The table is in gsm7-alphabet.ts, the replacements in typography.ts. Next: segments.ts.

import { basicCharacters, extensionCharacters } from './gsm7-alphabet.ts';
import { typography } from './typography.ts';

export type Alphabet = 'gsm-7' | 'ucs-2';

/** By code: the septets that a character takes, 0 where it is outside the alphabet. */
const septets = tableOf([
  ...basicCharacters.map((character) => [character.charCodeAt(0), 1] as const),
  ...extensionCharacters.map((character) => [character.charCodeAt(0), 2] as const),
]);

function tableOf(costs: readonly (readonly [code: number, cost: number])[]): Uint8Array {
  const table = new Uint8Array(Math.max(...costs.map(([code]) => code)) + 1);
  for (const [code, cost] of costs) table[code] = cost;
  return table;
}

/** Septets that a text takes; undefined when a character is outside the alphabet and turns the whole text into UCS-2. */
export function septetsOf(text: string): number | undefined {
  let sum = 0;
  for (let at = 0; at < text.length; at += 1) {
    const cost = septets[text.charCodeAt(at)];
    if (cost === undefined || cost === 0) return undefined;
    sum += cost;
  }
  return sum;
}

/** The alphabet a gateway chooses for this text as it stands. */
export function alphabetOf(text: string): Alphabet {
  return septetsOf(text) === undefined ? 'ucs-2' : 'gsm-7';
}

/** The characters of a text that are outside GSM 7-bit, each once, in the order they are met. */
export function charactersOutside(text: string): string[] {
  return [...new Set(text)].filter((character) => septetsOf(character) === undefined);
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
