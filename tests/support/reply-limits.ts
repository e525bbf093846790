// How many segments a reply may take, for tests that let anything be sent.

import { measure } from '../../src/messages/segments.ts';

/** GSM-7, and languages of 16 bits. */
export const mostSegments = { 'gsm-7': 2, 'ucs-2': 5 } as const;

/**
 * By how many segments a reply is too long; 0 or less: it is not.
 *
 * Takes  hasMore: it is the very first, with its cautions, or goes to one who is told doses: one segment more.
 */
export function segmentsOver(text: string, hasMore: boolean): number {
  const { segments, alphabet } = measure(text);
  return segments - mostSegments[alphabet] - (hasMore ? 1 : 0);
}
