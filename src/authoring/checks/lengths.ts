// Each message fits its place: an explanation two segments, one piece of advice one, a name its line of a list, and any other one
// text. Whole questions and results are fitted when they are said; tests/economy measures them in every language.

import type { Catalogue } from '../../messages/catalogue.ts';
import type { Alphabet } from '../../messages/gsm7.ts';
import { longest } from '../../messages/longest.ts';
import { wholeFile } from '../diagnostic.ts';
import type { Report } from '../yaml-source.ts';

/** Units of the segments that messages under a key may take; a script of 16 bits may take more for the same words. */
const most: readonly { readonly prefix: string; readonly units: Readonly<Record<Alphabet, number>> }[] = [
  { prefix: 'explain.', units: { 'gsm-7': 306, 'ucs-2': 335 } },
  { prefix: 'advice.', units: { 'gsm-7': 153, 'ucs-2': 201 } },
  // Names, several of which stand in one text.
  { prefix: 'marks.', units: { 'gsm-7': 70, 'ucs-2': 45 } },
  { prefix: 'signs.', units: { 'gsm-7': 55, 'ucs-2': 45 } },
  { prefix: 'findings.', units: { 'gsm-7': 30, 'ucs-2': 25 } },
  { prefix: 'classifications.', units: { 'gsm-7': 45, 'ucs-2': 40 } },
  { prefix: 'fields.', units: { 'gsm-7': 45, 'ucs-2': 35 } },
  { prefix: 'values.', units: { 'gsm-7': 45, 'ucs-2': 35 } },
  { prefix: 'absent.', units: { 'gsm-7': 20, 'ucs-2': 20 } },
  { prefix: 'menu.', units: { 'gsm-7': 25, 'ucs-2': 25 } },
  // Any other stands in a text of one segment, or of three where a script takes 16 bits.
  { prefix: '', units: { 'gsm-7': 160, 'ucs-2': 201 } },
];

/** Units that a message has room for in a language of this alphabet, its values in place. */
export function roomOf(key: string, alphabet: Alphabet): number {
  // The last of the list begins every key.
  return most.find(({ prefix }) => key.startsWith(prefix))?.units[alphabet] ?? Number.POSITIVE_INFINITY;
}

export function checkLengths(catalogue: Catalogue, report: Report): void {
  for (const [key, message] of catalogue.messages) {
    const limit = roomOf(key, catalogue.alphabet);
    const { units, text } = longest(message, {}, catalogue.alphabet);
    if (units <= limit) continue;
    report({
      code: 'wording/too-long',
      severity: catalogue.draft ? 'warning' : 'error',
      file: `locales/${catalogue.tag}`,
      range: wholeFile,
      what: `"${key}" takes ${units} units, and ${limit} have room: "${text.slice(0, 60)}..."`,
      why: 'Part of it would come in one text more, or not at all.',
      fix: `Shorten it by ${units - limit}.`,
      related: [],
    });
  }
}
