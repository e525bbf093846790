// Joins the parts of long texts, whatever order they come in. Bytes are joined, not texts: a character may lie across two parts. What
// never becomes whole is let go, for half a message could say the opposite of all of it. Bounded in time, number and size.

import type { Delivered, Part } from './fields.ts';

/** A phone sends its parts within seconds; a centre that tries again may take minutes. */
const patienceMilliseconds = 15 * 60_000;
const mostUnfinished = 1_000;
/** Of 153 characters each: as much as any other door takes. */
const mostParts = 12;

export type Joined =
  | { readonly kind: 'whole'; readonly bytes: Buffer }
  | { readonly kind: 'waiting' }
  /** More parts than a text may have. */
  | { readonly kind: 'refused' };

export interface Parts {
  add(message: Delivered, part: Part, now: number): Joined;
  /** Texts that were let go since this was last asked. */
  letGo(now: number): number;
}

interface Unfinished {
  readonly at: number;
  readonly pieces: Map<number, Buffer>;
}

export function collectParts(): Parts {
  const unfinished = new Map<string, Unfinished>();
  let lost = 0;
  const drop = (key: string): void => {
    unfinished.delete(key);
    lost += 1;
  };
  const tidy = (now: number): void => {
    // In the order in which they were begun.
    for (const [key, { at }] of unfinished) {
      if (now - at < patienceMilliseconds && unfinished.size <= mostUnfinished) break;
      drop(key);
    }
  };
  return {
    add({ from, to, body }, { reference, total, number }, now) {
      if (total > mostParts) return { kind: 'refused' };
      const key = JSON.stringify([from, to, body.coding, reference, total]);
      const text = unfinished.get(key) ?? { at: now, pieces: new Map<number, Buffer>() };
      unfinished.set(key, text);
      text.pieces.set(number, body.bytes);
      if (text.pieces.size < total) {
        tidy(now);
        return { kind: 'waiting' };
      }
      unfinished.delete(key);
      const inOrder = [...text.pieces].sort(([one], [other]) => one - other).map(([, bytes]) => bytes);
      return { kind: 'whole', bytes: Buffer.concat(inOrder) };
    },
    letGo(now) {
      tidy(now);
      const since = lost;
      lost = 0;
      return since;
    },
  };
}
