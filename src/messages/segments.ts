// How many SMS a text is: its alphabet, its units, and the segments a carrier cuts it into (3GPP TS 23.040 9.2.3.24.1,
// 8-bit reference). Measures a text as it stands; make it plain first (gsm7.ts). Fitting is screens.ts.

import { type Alphabet, alphabetOf, septetsOf } from './gsm7.ts';

/** Room in a text that is one segment, and in each segment of a longer one (its header takes the rest). */
const room = {
  'gsm-7': { single: 160, part: 153 },
  'ucs-2': { single: 70, part: 67 },
} as const;

export interface Measure {
  readonly alphabet: Alphabet;
  /** Septets in GSM 7-bit, 16-bit units in UCS-2; room lost at the end of a segment is not counted. */
  readonly units: number;
  /** At least 1: an empty text still goes out as one. */
  readonly segments: number;
  /** Units that each of these segments holds. */
  readonly perSegment: number;
  /** Units free in the last segment. */
  readonly left: number;
}

/**
 * What it costs to send this text. A character of two units (an escape pair, a surrogate pair) is never cut in half, so
 * a segment may end one unit short.
 *
 * Source   3GPP TS 23.040, 9.2.3.24.1; two independent counters agree in tests/messages/segments.test.ts.
 */
export function measure(text: string): Measure {
  const septets = septetsOf(text);
  const alphabet = septets === undefined ? 'ucs-2' : 'gsm-7';
  const { single, part } = room[alphabet];
  const units = septets ?? text.length;
  if (units <= single) return { alphabet, units, segments: 1, perSegment: single, left: single - units };

  let segments = 1;
  let used = 0;
  for (const character of text) {
    const cost = costOf(character, alphabet);
    if (used + cost > part) {
      segments += 1;
      used = 0;
    }
    used += cost;
  }
  return { alphabet, units, segments, perSegment: part, left: part - used };
}

/** Units of a text in an alphabet, by default the one it would be sent in. */
export function unitsOf(text: string, alphabet: Alphabet = alphabetOf(text)): number {
  if (alphabet === 'ucs-2') return text.length;
  const septets = septetsOf(text);
  if (septets !== undefined) return septets;
  let units = 0;
  for (const character of text) units += costOf(character, alphabet);
  return units;
}

function costOf(character: string, alphabet: Alphabet): number {
  return alphabet === 'ucs-2' ? character.length : (septetsOf(character) ?? character.length);
}
