// Each message fits its place with the longest that can stand in it: an explanation two segments, one piece of advice one, a name its
// line of a list, and any other one text. Whole questions and results are fitted when they are said; tests/economy measures them in
// every language. What stands in a place: flows/reference/places.yaml. Next: longest-values.ts.

import type { Catalogue } from '../../messages/catalogue.ts';
import type { Alphabet } from '../../messages/gsm7.ts';
import { longest } from '../../messages/longest.ts';
import { placesOf } from '../../messages/message.ts';
import { wholeFile } from '../diagnostic.ts';
import type { PlaceLine } from '../read-places.ts';
import type { Report } from '../yaml-source.ts';
import { lineFor, longestValues } from './longest-values.ts';

interface Room {
  readonly prefix: string;
  readonly units: Readonly<Record<Alphabet, number>>;
}

const ofTwoSegments = (prefix: string): Room => ({ prefix, units: { 'gsm-7': 306, 'ucs-2': 335 } });

/** Units of the segments that messages under a key may take; a script of 16 bits may take more for the same words. */
const most: readonly Room[] = [
  ofTwoSegments('explain.'),
  { prefix: 'advice.', units: { 'gsm-7': 153, 'ucs-2': 201 } },
  // Names, several of which stand in one text.
  { prefix: 'marks.', units: { 'gsm-7': 70, 'ucs-2': 45 } },
  { prefix: 'signs.', units: { 'gsm-7': 55, 'ucs-2': 45 } },
  { prefix: 'findings.', units: { 'gsm-7': 30, 'ucs-2': 25 } },
  { prefix: 'classifications.', units: { 'gsm-7': 45, 'ucs-2': 40 } },
  { prefix: 'fields.', units: { 'gsm-7': 45, 'ucs-2': 35 } },
  { prefix: 'values.', units: { 'gsm-7': 45, 'ucs-2': 35 } },
  { prefix: 'absent.', units: { 'gsm-7': 20, 'ucs-2': 20 } },
  // Texts to the nurse on call, to whom the baby comes and to a worker whom nobody answers: two segments.
  ...['alert.text', 'alert.update', 'alert.eased', 'alert.nobody-worker'].map(ofTwoSegments),
  ...['referral.coming', 'referral.refused-nurse', 'referral.refused-still', 'referral.moved-nurse', 'referral.unconfirmed.'].map(
    ofTwoSegments,
  ),
  // The question for the PIN is one screen: no page of it could be turned.
  { prefix: 'pin.', units: { 'gsm-7': 160, 'ucs-2': 70 } },
  // A baby, or where an examination stands, is a line of a menu.
  { prefix: 'menu.recheck', units: { 'gsm-7': 55, 'ucs-2': 50 } },
  { prefix: 'menu.where', units: { 'gsm-7': 60, 'ucs-2': 50 } },
  { prefix: 'menu.go-on', units: { 'gsm-7': 70, 'ucs-2': 60 } },
  { prefix: 'menu.', units: { 'gsm-7': 25, 'ucs-2': 25 } },
  // Any other stands in a text of one segment, or of three where a script takes 16 bits.
  { prefix: '', units: { 'gsm-7': 160, 'ucs-2': 201 } },
];

/** Units that a message has room for in a language of this alphabet, its values in place. */
export function roomOf(key: string, alphabet: Alphabet): number {
  // The last of the list begins every key.
  return most.find(({ prefix }) => key.startsWith(prefix))?.units[alphabet] ?? Number.POSITIVE_INFINITY;
}

export function checkLengths(catalogue: Catalogue, lines: readonly PlaceLine[], report: Report): void {
  const valuesOf = longestValues(lines, catalogue);
  for (const [key, message] of catalogue.messages) {
    const limit = roomOf(key, catalogue.alphabet);
    const { units, text } = longest(message, valuesOf(key, message), catalogue.alphabet);
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

/** Errors: places in the base language of which no line says what stands there; a warning when nothing is said of any. */
export function checkPlacesAreKnown(base: Catalogue, lines: readonly PlaceLine[], file: string, report: Report): void {
  const why = 'The message cannot be measured at its longest, or the place is misspelt and would be shown by its name.';
  if (lines.length === 0) {
    const what = 'Nothing says what stands in the places of messages at its longest.';
    const fix = 'Give "places:" with a line for each.';
    report({ code: 'places/not-listed', severity: 'warning', file, range: wholeFile, what, why, fix, related: [] });
    return;
  }
  for (const [key, message] of base.messages) {
    for (const place of placesOf(message).keys()) {
      if (lineFor(lines, key, place) !== undefined) continue;
      const what = `Nothing says what stands in {${place}} of "${key}" at its longest.`;
      const fix = 'Correct its name; or give a line for it in flows/reference/places.yaml.';
      report({ code: 'places/not-known', severity: 'error', file: `locales/${base.tag}`, range: wholeFile, what, why, fix, related: [] });
    }
  }
}
