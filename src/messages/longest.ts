// The longest text a message can become, given the longest text of each of its places. What `pipit check` holds against
// a screen or a segment. Walks every form of a plural and a select and keeps the longest. Next: src/authoring/checks.

import type { Alphabet } from './gsm7.ts';
import type { Message, Part } from './message.ts';
import { unitsOf } from './segments.ts';

/** Name of a place -> the longest text it is filled with. */
export type Bounds = Readonly<Record<string, string>>;

export interface Longest {
  /** The text itself, to be measured or shown to the author. */
  readonly text: string;
  readonly units: number;
  /** Places that no bound is declared for; each stands in the text by its name, so the length is not proved. */
  readonly unbounded: readonly string[];
}

/**
 * The worst case of a message, in the units of an alphabet. Each plural and select takes its longest form on its own, so
 * the result may be longer than any real text, and is never shorter.
 */
export function longest(message: Message, bounds: Bounds, alphabet: Alphabet): Longest {
  const unbounded = new Set<string>();
  const bound = (name: string): string => {
    if (Object.hasOwn(bounds, name)) return bounds[name] ?? '';
    unbounded.add(name);
    return name;
  };
  const text = longestText(message.parts, bound, alphabet, '');
  return { text, units: unitsOf(text, alphabet), unbounded: [...unbounded] };
}

function longestText(parts: readonly Part[], bound: (name: string) => string, alphabet: Alphabet, count: string): string {
  return parts
    .map((part) => {
      if (typeof part === 'string') return part;
      if (part.kind === 'place') return bound(part.name);
      if (part.kind === 'count') return count;
      const inner = part.kind === 'plural' ? bound(part.name) : count;
      const texts = [...part.forms.values()].map((form) => longestText(form, bound, alphabet, inner));
      return texts.reduce((a, b) => (unitsOf(b, alphabet) > unitsOf(a, alphabet) ? b : a), '');
    })
    .join('');
}
