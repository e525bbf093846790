// The `messages` of a language: nested names whose leaves are ICU text become messages by joined key
// (ask: {breathing: {title: ...}} is ask.breathing.title). Next: read-catalogue-parity.ts, which compares languages.

import { isScalar } from 'yaml';
import type { Alphabet } from '../messages/gsm7.ts';
import { allParts, type Message, readMessage } from '../messages/message.ts';
import type { Range } from './diagnostic.ts';
import { outsideGsm7 } from './read-catalogue-alphabet.ts';
import { putFault } from './read-catalogue-faults.ts';
import { complain, entriesOf, isMapping, type Place, type Report, rangeWithin } from './yaml-source.ts';

/** A message and where it was written; null when what is written there cannot be used. */
export interface PlacedMessage {
  readonly message: Message | null;
  readonly place: Place;
}

/** The one message that may begin and end with spaces. */
const joinerKey = 'list.joiner';
const whyUnsaid = 'The worker would see the name of this message instead of its words.';

/** Adds the messages under one `messages` section to `messages`, and reports what is wrong with them. */
export function readMessages(section: Place, alphabet: Alphabet, messages: Map<string, PlacedMessage>, report: Report): void {
  for (const entry of entriesOf(section, report)) readEntry(entry, entry.key, alphabet, messages, report);
}

function readEntry(place: Place, key: string, alphabet: Alphabet, messages: Map<string, PlacedMessage>, report: Report): void {
  if (isMapping(place)) {
    for (const entry of entriesOf(place, report)) readEntry(entry, `${key}.${entry.key}`, alphabet, messages, report);
    return;
  }
  const first = messages.get(key);
  if (first !== undefined) {
    const related = [{ file: first.place.file, range: first.place.keyRange, what: 'It is first written here.' }];
    report({
      ...complain(
        place,
        place.keyRange,
        'message/twice',
        `"${key}" is written twice.`,
        'Only one of the two can be said, and it may be the wrong one.',
        'Keep one of them.',
      ),
      related,
    });
    return;
  }
  messages.set(key, { message: readLeaf(place, key, alphabet, report), place });
}

function readLeaf(place: Place, key: string, alphabet: Alphabet, report: Report): Message | null {
  const written = isScalar(place.node) ? place.node.value : undefined;
  // "" is said on purpose where a step has nothing to say; nothing at all after the colon was forgotten.
  if (typeof written !== 'string' || (written === '' && isScalar(place.node) && place.node.type === 'PLAIN')) {
    report(
      complain(
        place,
        place.range,
        'message/not-text',
        `"${key}" has no text.`,
        whyUnsaid,
        'Write its words after the colon, in "quotes"; "" where nothing is to be said.',
      ),
    );
    return null;
  }
  const text = key === joinerKey ? written : written.trim();
  const lead = written.indexOf(text);
  const { message, faults } = readMessage(text);
  for (const fault of faults) {
    const { code, severity, what, why, fix } = putFault(fault, text);
    const range = rangeWithin(place, lead + fault.from, lead + Math.max(fault.to, fault.from + 1));
    report({ ...complain(place, range, code, what, why, fix), severity });
  }
  if (message !== null && alphabet === 'gsm-7') reportOutside(place, written, message, report);
  return message;
}

function reportOutside(place: Place, written: string, message: Message, report: Report): void {
  const said = [...allParts(message.parts)].filter((part) => typeof part === 'string').join('');
  for (const { character, offer } of outsideGsm7(said)) {
    const code = (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
    const fix =
      offer === null
        ? 'Say it in other letters, or set "alphabet: ucs-2" for the whole language.'
        : `Write "${offer}", or set "alphabet: ucs-2" for the whole language.`;
    const why = 'One such character, and a text holds 70 characters in place of 160: the worker pays for two or three.';
    report(
      complain(
        place,
        rangeOf(place, written, character),
        'message/outside-alphabet',
        `"${character}" (U+${code}) is not in the gsm-7 alphabet.`,
        why,
        fix,
      ),
    );
  }
}

function rangeOf(place: Place, written: string, character: string): Range {
  const at = written.indexOf(character);
  return at < 0 ? place.range : rangeWithin(place, at, at + character.length);
}
