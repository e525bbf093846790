// A session as the store holds it: text. A session that cannot be read, after a downgrade or damage, is begun anew rather than
// leaving a worker without a phone. Next: unsaved-entries.ts, what sessions held before entries were kept beside them.

import { newSession, type Session } from '../dialog/session.ts';
import { noPinState, type PinState, readPinState } from './pin/pin-state.ts';
import type { Waiting } from './ports.ts';
import { readUnsaved } from './unsaved-entries.ts';

const version = 1;

export interface StoredSession {
  readonly session: Session;
  readonly pin: PinState;
  /** Entries that an older version left in the session while the register was away. */
  readonly unsaved: readonly Waiting[];
  /** True: there was a text, and it could not be read. */
  readonly damaged: boolean;
}

export function writeSession({ aside, told, misses, page, ...rest }: Session, pin: PinState = noPinState): string {
  return JSON.stringify({
    v: version,
    ...rest,
    ...(aside.length === 0 ? {} : { aside }),
    ...(told.length === 0 ? {} : { told }),
    ...(misses === 0 ? {} : { misses }),
    ...(page === 0 ? {} : { page }),
    ...(Object.keys(pin).length === 0 ? {} : { pin }),
  });
}

/** Never throws. */
export function readSession(text: string | null): StoredSession {
  if (text === null) return { session: newSession, pin: noPinState, unsaved: [], damaged: false };
  try {
    const { v, unsaved, pin, ...session } = JSON.parse(text);
    const whole = { ...newSession, ...session };
    const isSound = v === version && typeof session.lastMessageAt === 'number' && isSession(whole);
    return { session: isSound ? whole : newSession, pin: readPinState(pin), unsaved: readUnsaved(unsaved), damaged: !isSound };
  } catch {
    return { session: newSession, pin: noPinState, unsaved: [], damaged: true };
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
