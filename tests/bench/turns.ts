// The dialog alone: how many turns `takeTurn` takes in a second of processor time, without store, network or words.

import type { Book, Caller } from '../../src/dialog/book.ts';
import { newSession, type Session } from '../../src/dialog/session.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { processorSeconds } from './processor-time.ts';

/** Over this many passes of the mix. A second lies between two texts, so that no standing is known from the turn before. */
export function turnsPerSecond(mix: readonly (readonly string[])[], passes: number, book: Book, caller: Caller, now: number): number {
  let turns = 0;
  let session: Session = newSession;
  const began = processorSeconds();
  for (let pass = 0; pass < passes; pass += 1) {
    for (const text of mix.flat()) {
      session = takeTurn(session, { text, caller, dialled: false }, book, now + 1000 * turns).session;
      turns += 1;
    }
  }
  return turns / (processorSeconds() - began);
}
