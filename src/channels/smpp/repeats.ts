// Which delivered texts are the same text, delivered again. SMPP gives a text no id, and a worker does answer "0" six times in a row;
// but a centre that missed our answer delivers the text again, and counted twice it would answer a question that she never read.
//
// - A text that its phone or centre named (a message reference, the reference of its parts) is the same when all of it is the same,
//   for an hour, in every process.
// - One without a name is the same while it is being answered; and, once, after an answer that the centre may have missed: the link
//   was lost around it, it came late, or it was "not now". A worker who does say it anew just then is shown her question again.
//
// Next: door.ts.

import { createHash } from 'node:crypto';
import type { Delivered } from './fields.ts';
import { STATUS } from './protocol.ts';

const HOUR = 3_600_000;
/** Later than this, a centre may have given up waiting. */
const lateMilliseconds = 5_000;
/** How long before the link was lost an answer may have been lost in it. */
const lostWithLinkMilliseconds = 60_000;
const mostRemembered = 10_000;

export interface Repeats {
  /** Answers the text under its id, unless that is going on already; what the centre is told. */
  answer(text: Delivered, answer: (id: string) => Promise<number>): Promise<number>;
  /** What the centre was told last may not have reached it. */
  linkLost(): void;
}

interface Known {
  readonly id: string;
  running: Promise<number> | null;
  answeredAt: number;
  isDoubtful: boolean;
}

/** Takes process: a name that no other process has, nor this one after a restart. */
export function rememberRepeats(process: string, now: () => number): Repeats {
  const known = new Map<string, Known>();
  let link = 0;
  let count = 0;

  const nameNew = (key: string, isNamed: boolean): string => {
    count += 1;
    return isNamed ? `smpp:${key}:${Math.floor(now() / HOUR)}` : `smpp:${key}:${process}-${count}`;
  };
  const tidy = (): void => {
    for (const [key, { running, answeredAt }] of known) {
      if (running !== null || (now() - answeredAt < HOUR && known.size <= mostRemembered)) break;
      known.delete(key);
    }
  };
  const run = async (entry: Known, answer: (id: string) => Promise<number>): Promise<number> => {
    const [began, heardOn] = [now(), link];
    const status = await answer(entry.id);
    entry.running = null;
    entry.answeredAt = now();
    entry.isDoubtful = status !== STATUS.ok || entry.answeredAt - began > lateMilliseconds || heardOn !== link;
    return status;
  };
  return {
    answer(text, answer) {
      tidy();
      const key = keyOf(text);
      const isNamed = text.reference !== 0 || text.part !== undefined;
      const before = known.get(key);
      if (before?.running) return before.running;
      const isSame = before !== undefined && (before.isDoubtful || (isNamed && now() - before.answeredAt < HOUR));
      const entry: Known = { id: isSame ? before.id : nameNew(key, isNamed), running: null, answeredAt: now(), isDoubtful: false };
      known.delete(key);
      known.set(key, entry);
      entry.running = run(entry, answer);
      return entry.running;
    },
    linkLost() {
      link += 1;
      for (const entry of known.values()) {
        if (now() - entry.answeredAt <= lostWithLinkMilliseconds) entry.isDoubtful = true;
      }
    },
  };
}

const KEY_LENGTH = 32;

function keyOf({ from, to, body, reference, part }: Delivered): string {
  const said = JSON.stringify([from, to, body.coding, body.bytes.toString('base64'), reference, part?.reference ?? null]);
  return createHash('sha256').update(said).digest('hex').slice(0, KEY_LENGTH);
}
