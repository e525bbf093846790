// Sentences that stand alone in a text fit it: an explanation two segments, one piece of advice one. Whole questions and
// results are fitted when they are said; tests/economy measures them in every language.

import type { Catalogue } from '../../messages/catalogue.ts';
import type { Alphabet } from '../../messages/gsm7.ts';
import { longest } from '../../messages/longest.ts';
import { wholeFile } from '../diagnostic.ts';
import type { Report } from '../yaml-source.ts';

/** Units of the segments that messages under a key may take; a script of 16 bits may take more for the same words. */
const most: readonly { readonly prefix: string; readonly units: Readonly<Record<Alphabet, number>> }[] = [
  { prefix: 'explain.', units: { 'gsm-7': 306, 'ucs-2': 335 } },
  { prefix: 'advice.', units: { 'gsm-7': 153, 'ucs-2': 201 } },
];

export function checkLengths(catalogue: Catalogue, report: Report): void {
  for (const [key, message] of catalogue.messages) {
    const limit = most.find(({ prefix }) => key.startsWith(prefix))?.units[catalogue.alphabet];
    if (limit === undefined) continue;
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
