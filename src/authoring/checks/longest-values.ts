// The longest text that can stand in each place of a message, in one language: what lengths.ts measures with. A place of which nothing
// is said has none, and counts by its name. Next: read-places.ts for the lines, src/messages/longest.ts.

import type { Catalogue } from '../../messages/catalogue.ts';
import type { Alphabet } from '../../messages/gsm7.ts';
import { type Bounds, longest } from '../../messages/longest.ts';
import { type Message, placesOf } from '../../messages/message.ts';
import type { PlaceLine } from '../read-places.ts';

export type LongestValues = (key: string, message: Message) => Bounds;

/** A letter that takes one unit of the alphabet. */
const letterOf: Readonly<Record<Alphabet, string>> = { 'gsm-7': 'n', 'ucs-2': 'न' };

export function lineFor(lines: readonly PlaceLine[], key: string, place: string): PlaceLine | undefined {
  return lines.find((line) => line.place === place && (line.under.length === 0 || line.under.some((start) => key.startsWith(start))));
}

export function longestValues(
  lines: readonly PlaceLine[],
  { alphabet, messages }: Pick<Catalogue, 'alphabet' | 'messages'>,
): LongestValues {
  const known = new Map<PlaceLine, string>();

  function boundsOf(key: string, message: Message): Bounds {
    const bounds: Record<string, string> = {};
    for (const place of placesOf(message).keys()) {
      const line = lineFor(lines, key, place);
      if (line !== undefined) bounds[place] = textOf(line);
    }
    return bounds;
  }

  function textOf(line: PlaceLine): string {
    const before = known.get(line);
    if (before !== undefined) return before;
    // A message that would stand in itself takes nothing there.
    known.set(line, '');
    const text = made(line);
    known.set(line, text);
    return text;
  }

  function made({ holds }: PlaceLine): string {
    switch (holds.kind) {
      case 'text':
        return holds.text;
      case 'letters':
        return letterOf[alphabet].repeat(holds.count);
      case 'fitted':
        return '';
      case 'message':
        return longestUnder(holds.under);
    }
  }

  function longestUnder(starts: readonly string[]): string {
    let most = { text: '', units: 0 };
    for (const [key, message] of messages) {
      if (!starts.some((start) => key.startsWith(start))) continue;
      const one = longest(message, boundsOf(key, message), alphabet);
      if (one.units > most.units) most = one;
    }
    return most.text;
  }

  return boundsOf;
}
