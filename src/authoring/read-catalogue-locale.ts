// One language between reading and binding: everything that was written, with the place where it stands.

import type { Header } from './read-catalogue-header.ts';
import type { PlacedMessage } from './read-catalogue-messages.ts';
import type { WordLists } from './read-catalogue-words.ts';
import type { Place } from './yaml-source.ts';

/** One language as it was read, with the place of everything in it. */
export interface ReadLocale {
  readonly header: Header;
  readonly messages: ReadonlyMap<string, PlacedMessage>;
  readonly keywords: WordLists;
  readonly readings: WordLists;
  readonly labels: WordLists;
  readonly regions: WordLists;
  readonly signs: WordLists;
  /** The top of its first file. */
  readonly top: Place;
}
