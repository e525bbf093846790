// A session as the store holds it: text, with what the register could not take yet. A session that cannot be read, after a
// downgrade or damage, is begun anew rather than leaving a worker without a phone.

import { newSession, type Session } from '../dialog/session.ts';
import type { Waiting } from './record.ts';

export interface Stored {
  readonly session: Session;
  /** Entries that wait for the register to come back; written with the next message of this phone. */
  readonly unsaved: readonly Waiting[];
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
    const whole = { ...newSession, ...session };
    const isSound = v === version && typeof session.lastMessageAt === 'number' && isSession(whole) && Array.isArray(unsaved);
    return isSound ? { session: whole, unsaved, damaged: false } : { session: newSession, unsaved: [], damaged: true };
  } catch {
    return { session: newSession, unsaved: [], damaged: true };
  }
}

/** As far as a turn would break on it: a session that breaks every turn would leave its worker without a phone. */
function isSession({ open, aside, told }: { readonly open: unknown; readonly aside: unknown; readonly told: unknown }): boolean {
  return (open === null || isExamination(open)) && Array.isArray(aside) && aside.every(isExamination) && Array.isArray(told);
}

function isExamination(value: unknown): boolean {
  if (typeof value !== 'object' || value === null || !('flow' in value) || !('answers' in value)) return false;
  return typeof value.flow === 'string' && Array.isArray(value.answers);
}
