// A session as the store holds it: text. A session that cannot be read, after a downgrade or damage, is begun anew rather than
// leaving a worker without a phone. Next: packed-examination.ts; unsaved-entries.ts, what sessions held before entries were kept beside them.

import { type Examination, newSession, type Session } from '../dialog/session.ts';
import { packed, unpacked } from './packed-examination.ts';
import { noPinState, type PinState, readPinState } from './pin/pin-state.ts';
import type { Waiting } from './ports.ts';
import { readUnsaved } from './unsaved-entries.ts';

/** Of what is written; sessions of the versions before it are read as well. */
const version = 3;
const readable: ReadonlySet<unknown> = new Set([1, 2, version]);

export interface StoredSession {
  readonly session: Session;
  readonly pin: PinState;
  /** Entries that an older version left in the session while the register was away. */
  readonly unsaved: readonly Waiting[];
  /** True: there was a text, and it could not be read. */
  readonly damaged: boolean;
}

export function writeSession({ open, last, aside, told, misses, page, ...rest }: Session, pin: PinState = noPinState): string {
  return JSON.stringify({
    v: version,
    ...rest,
    ...(open === null ? {} : { open: packed(open) }),
    ...(last === undefined ? {} : { last: packed(last) }),
    ...(aside.length === 0 ? {} : { aside: aside.map(packed) }),
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
    const { v, unsaved, pin, ...stored } = JSON.parse(text);
    const session = readable.has(v) ? sessionOf(stored) : undefined;
    return { session: session ?? newSession, pin: readPinState(pin), unsaved: readUnsaved(unsaved), damaged: session === undefined };
  } catch {
    return { session: newSession, pin: noPinState, unsaved: [], damaged: true };
  }
}

type Stored = Omit<Session, 'open' | 'last' | 'aside'> & Readonly<Record<'open' | 'last' | 'aside', unknown>>;

/** Undefined: it is damaged, as far as a turn would break on it. */
function sessionOf({ open = null, last, aside = [], ...rest }: Stored): Session | undefined {
  const isSound = typeof rest.lastMessageAt === 'number' && Array.isArray(rest.told ?? []) && Array.isArray(aside);
  if (!isSound) return undefined;
  const opened = open === null ? null : unpacked(open);
  const finished = last === undefined ? null : unpacked(last);
  const setAside = aside.map(unpacked).filter((one): one is Examination => one !== undefined);
  if (opened === undefined || finished === undefined || setAside.length < aside.length) return undefined;
  return { ...newSession, ...rest, open: opened, aside: setAside, ...(finished === null ? {} : { last: finished }) };
}
