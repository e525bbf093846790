// The mix that the bench plays: twelve examinations, one of them urgent, as the texts that a worker sends. Only how each
// begins is written here; the rest is found by taking the turns, so that an edited flow leaves a whole examination whole.

import type { Book, Caller } from '../../src/dialog/book.ts';
import { newSession, type Session } from '../../src/dialog/session.ts';
import { takeTurn } from '../../src/dialog/turn.ts';

/** Invented babies: well ones in several manners of writing, some that need care, one that is urgent. */
const beginnings: readonly (readonly string[])[] = [
  ['BABY', '1 5h 39 3100', '0', '0', '0', '36.8 44 132'],
  ['BABY 2 5h 39 3100', '0', '0', '0', '36.9 48 128'],
  ['MENU', 'BABY', '1 5h 40 3400', '0', '0', '0', '37.0 40 140'],
  ['BABY 1 5h 39 3100', '0', '0', '0', '36.8', '44', '132'],
  ['BABY 2 3h 39 3000 T36.7 R45 P130'],
  ['BABY 1 5h 38 2900', '0', '6', '00', '0', '0', '36.8 44 132'],
  ['BABY 2 6h 36 2600', '0', '0', '0', '36.6 46 136'],
  ['BABY 1 5h 39 3100', 'abc', '0', '0', '0', '36,8 44 132'],
  ['BABY 2 5h 39 3100', '0', '0', '0', '36.2 44 132'],
  ['BABY 1 5h 40 4300', '0', '0', '0', '36.8 44 132'],
  ['BABY', '2', '5h', '39', '3300', '0', '0', '0', '36.8 44 132'],
  ['BABY 1 5h 39 3100', '1', '2', '0', '0', '36.8 44 132'],
];
const mostTexts = 60;

/** The texts of each examination, to its result. Errors: one that comes to no result. */
export function examinations(book: Book, caller: Caller, now: number): string[][] {
  return beginnings.map((beginning) => {
    const texts: string[] = [];
    let session: Session = newSession;
    let isFinal = false;
    let isUrgent = false;
    const send = (text: string): void => {
      const { session: next, reply } = takeTurn(session, { text, caller, dialled: false }, book, now);
      texts.push(text);
      session = next;
      isUrgent = reply.result !== undefined;
      isFinal = session.open?.finishedAt !== undefined;
    };
    for (const text of beginning) send(text);
    while (!isFinal && texts.length < mostTexts) send(isUrgent ? '2' : '0');
    if (!isFinal)
      throw new Error(
        `The examination that begins "${beginning.join(' / ')}" comes to no result. Write its beginning as the flow now asks.`,
      );
    return texts;
  });
}
