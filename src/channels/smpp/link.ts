// A link to the centre that stands again whenever it falls: tried at once, then after ever longer pauses. Next: session.ts, one
// connection; window.ts, which submits through it.

import type { DoorLog } from '../door.ts';
import type { Timing } from '../timing.ts';
import type { Bound, SmppSession } from './session.ts';

const firstPauseMilliseconds = 1_000;
const longestPauseMilliseconds = 60_000;

export interface SmppLink {
  /** The session that stands, or that comes within so long; null: none did. */
  standing(withinMilliseconds: number): Promise<SmppSession | null>;
  /** Whether one stands now. */
  isUp(): boolean;
  /** Takes leave of the centre, and makes no other session. */
  close(): Promise<void>;
}

export interface LinkParts {
  readonly open: () => Promise<Bound>;
  readonly timing: Timing;
  readonly log: DoorLog;
  /** A session ended: what it was told last may not have arrived. */
  readonly lost: () => void;
}

export function keepLink({ open, timing, log, lost }: LinkParts): SmppLink {
  let current: SmppSession | null = null;
  let isClosed = false;
  let callOffPause = (): void => {};
  const waiting = new Set<(session: SmppSession | null) => void>();
  const pauseFor = (milliseconds: number): Promise<void> =>
    new Promise((resolve) => {
      const callOff = timing.after(milliseconds, resolve);
      callOffPause = () => {
        callOff();
        resolve();
      };
    });
  const hold = async (session: SmppSession): Promise<void> => {
    current = session;
    log.info('the link to the centre stands');
    for (const take of [...waiting]) take(session);
    await session.ended;
    current = null;
    lost();
    if (!isClosed) log.warn('the link to the centre is lost; it is made again');
  };
  const keep = async (): Promise<void> => {
    let pause = firstPauseMilliseconds;
    while (!isClosed) {
      const bound = await open();
      if (bound.kind === 'refused') {
        log.error({ status: bound.status, pause }, 'the centre is not reached, or refuses the bind (status); tried again after the pause');
      } else {
        pause = firstPauseMilliseconds;
        if (isClosed) await bound.session.unbind();
        else await hold(bound.session);
      }
      if (isClosed) break;
      await pauseFor(pause);
      pause = Math.min(pause * 2, longestPauseMilliseconds);
    }
  };
  const kept = keep();
  return {
    standing(withinMilliseconds) {
      if (current !== null || isClosed) return Promise.resolve(current);
      return new Promise((resolve) => {
        const take = (session: SmppSession | null): void => {
          callOff();
          waiting.delete(take);
          resolve(session);
        };
        const callOff = timing.after(withinMilliseconds, () => take(null));
        waiting.add(take);
      });
    },
    isUp: () => current !== null,
    async close() {
      isClosed = true;
      for (const take of [...waiting]) take(null);
      callOffPause();
      await current?.unbind();
      await kept;
    },
  };
}
