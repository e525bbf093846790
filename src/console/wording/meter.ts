// How much of its room a message takes, its values at their longest, and what stands in its way. Pure: the page and its script
// measure alike, and as `pipit check` does. Next: src/authoring/checks/lengths.ts for the room.

import { roomOf } from '../../authoring/checks/lengths.ts';
import { outsideGsm7 } from '../../authoring/read-catalogue-alphabet.ts';
import { putFault } from '../../authoring/read-catalogue-faults.ts';
import type { Alphabet } from '../../messages/gsm7.ts';
import { type Bounds, longest } from '../../messages/longest.ts';
import { allParts, readMessage } from '../../messages/message.ts';

export interface Meter {
  /** Null: it cannot be read as a message, and `fault` says why. */
  readonly units: number | null;
  readonly room: number;
  readonly isOver: boolean;
  /** Characters that the alphabet of the language does not hold. */
  readonly outside: readonly string[];
  readonly fault: string | null;
}

/**
 * Takes    words: as they are typed; spaces at their ends are not counted, as they are not sent.
 *          values: the longest that can stand in its places.
 */
export function meterOf(key: string, words: string, alphabet: Alphabet, values: Bounds): Meter {
  const room = roomOf(key, alphabet);
  const text = words.trim();
  const { message, faults } = readMessage(text);
  const [first] = faults;
  const said = first === undefined ? null : putFault(first, text);
  const fault = said === null ? null : `${said.what} ${said.fix}`;
  if (message === null) return { units: null, room, isOver: false, outside: [], fault };
  const { units } = longest(message, values, alphabet);
  const plain = [...allParts(message.parts)].filter((part) => typeof part === 'string').join('');
  const outside = alphabet === 'gsm-7' ? outsideGsm7(plain).map(({ character }) => character) : [];
  return { units, room, isOver: units > room, outside, fault };
}

/** Sentences with {places}. */
export interface MeterWords {
  readonly fits: string;
  readonly over: string;
  readonly outside: string;
}

export function sayMeter({ units, room, isOver, outside, fault }: Meter, words: MeterWords): string {
  const values: Record<string, string> = {
    units: String(units),
    room: String(room),
    over: String((units ?? 0) - room),
    characters: outside.join(' '),
  };
  const fill = (sentence: string): string => sentence.replace(/\{(\w+)\}/g, (place, name: string) => values[name] ?? place);
  const counted = units === null ? [] : [fill(isOver ? words.over : words.fits)];
  return [...counted, ...(outside.length === 0 ? [] : [fill(words.outside)]), ...(fault === null ? [] : [fault])].join(' ');
}

export function isWarned({ isOver, outside, fault }: Meter): boolean {
  return isOver || outside.length > 0 || fault !== null;
}
