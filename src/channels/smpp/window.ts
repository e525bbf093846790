// How submits go to the centre: no more of them unanswered at a time than it allows (its window), and slower when it says that it
// is throttled. A submit that it never took is tried again a few times; one that it may have taken never is. Next: link.ts.

import { type Timing, wait } from '../timing.ts';
import type { SmppLink } from './link.ts';
import { STATUS } from './protocol.ts';

export type Submitted =
  | { readonly kind: 'taken'; readonly messageId: string }
  | { readonly kind: 'refused'; readonly status: number }
  /** Nothing left this machine. */
  | { readonly kind: 'not-sent' }
  | { readonly kind: 'unknown' };

export type Submit = (fields: Readonly<Record<string, unknown>>) => Promise<Submitted>;

/** All tries together stay well below the time for which a text is claimed (conversation/send-due.ts). */
const tries = 4;
const firstPauseMilliseconds = 1_000;
const longestPauseMilliseconds = 8_000;
const linkMilliseconds = 5_000;

const SLOWER: ReadonlySet<number> = new Set([STATUS.throttled, STATUS.queueFull]);

/** Whether the centre may take it later. */
export function isForLater(submitted: Submitted): boolean {
  return submitted.kind === 'not-sent' || submitted.kind === 'unknown' || (submitted.kind === 'refused' && SLOWER.has(submitted.status));
}

export function submitter(link: SmppLink, window: number, timing: Timing): Submit {
  const queue: (() => void)[] = [];
  let unanswered = 0;
  let thaw: Promise<void> | null = null;
  let pause = firstPauseMilliseconds;

  const enter = async (): Promise<void> => {
    if (unanswered < window) unanswered += 1;
    // Whoever leaves hands its place on.
    else await new Promise<void>((resolve) => queue.push(resolve));
  };
  const leave = (): void => {
    const next = queue.shift();
    if (next === undefined) unanswered -= 1;
    else next();
  };
  const slowDown = (): void => {
    if (thaw !== null) return;
    thaw = wait(timing, pause).then(() => {
      thaw = null;
    });
    pause = Math.min(pause * 2, longestPauseMilliseconds);
  };
  const tryOnce: Submit = async (fields) => {
    while (thaw !== null) await thaw;
    const session = await link.standing(linkMilliseconds);
    if (session === null) return { kind: 'not-sent' };
    const answer = await session.submit(fields);
    if (answer.kind === 'not-sent') return answer;
    if (answer.kind === 'lost') return { kind: 'unknown' };
    if (answer.status === STATUS.ok) {
      pause = firstPauseMilliseconds;
      return { kind: 'taken', messageId: answer.messageId };
    }
    if (SLOWER.has(answer.status)) slowDown();
    return { kind: 'refused', status: answer.status };
  };
  return async (fields) => {
    await enter();
    try {
      let submitted = await tryOnce(fields);
      for (let tried = 1; tried < tries && submitted.kind === 'refused' && SLOWER.has(submitted.status); tried += 1) {
        submitted = await tryOnce(fields);
      }
      return submitted;
    } finally {
      leave();
    }
  };
}
