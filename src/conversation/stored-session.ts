// A session as the store holds it: text, with what the register could not take yet. A session that cannot be read, after a
// downgrade or damage, is begun anew rather than leaving a worker without a phone.

import { newSession, type Session } from '../dialog/session.ts';
import type { Entry } from './ports.ts';

export interface Stored {
  readonly session: Session;
  /** Entries that wait for the register to come back; written with the next message of this phone. */
  readonly unsaved: readonly Entry[];
}

const version = 1;

export function writeSession({ session, unsaved }: Stored): string {
  const { aside, told, misses, page, ...rest } = session;
  return JSON.stringify({
    v: version,
    ...rest,
    ...(aside.length === 0 ? {} : { aside }),
    ...(told.length === 0 ? {} : { told }),
    ...(misses === 0 ? {} : { misses }),
    ...(page === 0 ? {} : { page }),
    ...(unsaved.length === 0 ? {} : { unsaved }),
  });
}

/** Never throws. `damaged`: there was a text, and it could not be read. */
export function readSession(text: string | null): Stored & { readonly damaged: boolean } {
  if (text === null) return { session: newSession, unsaved: [], damaged: false };
  try {
    const { v, unsaved = [], ...session } = JSON.parse(text);
    if (v !== version || typeof session.lastMessageAt !== 'number') return { session: newSession, unsaved: [], damaged: true };
    return { session: { ...newSession, ...session }, unsaved, damaged: false };
  } catch {
    return { session: newSession, unsaved: [], damaged: true };
  }
}
