// What the phone shows, in the gateway's form: `CON` keeps the call, `END` closes it. Texts arrive fitted to the screen;
// here is only the last guard. Next: webhook.ts.

import type { Outgoing } from '../../conversation/ports.ts';
import { toPlainText } from '../plain-text.ts';

/** Whether a text has room on one screen. A shorter beginning of a text that has room must have room too. */
export type Fits = (text: string) => boolean;

/** The body of the answer. With nothing to show the call ends: an empty screen that waits would hold the phone. */
export function toUssdBody(outgoing: Outgoing): string {
  const text = toPlainText(outgoing.text);
  return `${outgoing.ends || text === '' ? 'END' : 'CON'} ${text}`;
}

/** The longest beginning of the text that fits, cut between whole characters; the text itself when all of it does. */
export function cutToScreen(text: string, fits: Fits): string {
  if (fits(text)) return text;
  const characters = [...text];
  let longestKnown = 0;
  let shortestTooLong = characters.length;
  while (longestKnown + 1 < shortestTooLong) {
    const middle = Math.floor((longestKnown + shortestTooLong) / 2);
    if (fits(characters.slice(0, middle).join(''))) longestKnown = middle;
    else shortestTooLong = middle;
  }
  return characters.slice(0, longestKnown).join('');
}
