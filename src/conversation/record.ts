// Writes what a turn found to the register, and lets nobody wait for it: while the register is away or hangs, urgent texts go
// straight to the gateway, and all entries are kept beside the sessions until it is back. Next: write-kept.ts, which writes
// them then; send-due.ts, which sends texts otherwise.

import { within } from './patience.ts';
import type { Register, SendText, Sessions, Waiting } from './ports.ts';
import type { Sent } from './records.ts';

export interface RecordParts {
  readonly register: Pick<Register, 'record'>;
  readonly sessions: Pick<Sessions, 'keep'>;
  readonly send: SendText;
  readonly pause: (milliseconds: number) => Promise<void>;
  readonly log: { readonly error: (about: object, what: string) => void };
}

export interface Recorded {
  /** Where the entries are now. `nowhere`: neither took them, and only the same message again can bring them back. */
  readonly where: 'register' | 'kept' | 'nowhere';
  /** False: an urgent text is neither in the register nor with the gateway; nobody has been told yet. */
  readonly isNurseTold: boolean;
}

/** Together with the look-ups of a turn and the session store's own limits within the phone's lock, and a gateway's patience. */
const registerPatienceMilliseconds = 3_000;
const gatewayPatienceMilliseconds = 2_000;
const keepingPatienceMilliseconds = 2_000;

export async function record(entries: readonly Waiting[], parts: RecordParts): Promise<Recorded> {
  if (entries.length === 0) return { where: 'register', isNurseTold: true };
  const written = await within(registerPatienceMilliseconds, parts.register.record(entries), parts.pause);
  if (written.kind === 'had') return { where: 'register', isNurseTold: true };
  const waiting = await Promise.all(entries.map((entry) => sendIfUrgent(entry, parts)));
  const isNurseTold = waiting.every((entry) => !isUrgentText(entry) || entry.gatewayId !== undefined);
  const kept = await within(keepingPatienceMilliseconds, parts.sessions.keep(waiting), parts.pause);
  if (kept.kind === 'had') {
    parts.log.error({ fault: written.fault, entries: entries.length }, 'the register is away; entries are kept until it is back');
    return { where: 'kept', isNurseTold };
  }
  parts.log.error(
    { fault: written.fault, keeping: kept.fault, entries: entries.length },
    'neither the register nor the session store takes entries',
  );
  return { where: 'nowhere', isNurseTold };
}

/** What is only counted waits beside the sessions until the register has time for it; should that fail, it is not counted. */
export async function keepCounted(
  entries: readonly Waiting[],
  { sessions, pause, log }: Pick<RecordParts, 'sessions' | 'pause' | 'log'>,
): Promise<void> {
  if (entries.length === 0) return;
  const kept = await within(keepingPatienceMilliseconds, sessions.keep(entries), pause);
  if (kept.kind === 'away') log.error({ fault: kept.fault }, 'what was begun could not be kept, and is not counted');
}

/** A register that was too slow may yet take the text and have it sent as well: told twice is better than not told. */
async function sendIfUrgent(entry: Waiting, parts: RecordParts): Promise<Waiting> {
  if (!isUrgentText(entry) || entry.gatewayId !== undefined) return entry;
  const sent = await Promise.race([
    parts.send({ key: entry.key, to: entry.to, text: entry.text }),
    parts.pause(gatewayPatienceMilliseconds).then((): Sent => ({ kind: 'unknown' })),
  ]);
  if (sent.kind === 'sent') return { ...entry, gatewayId: sent.gatewayId };
  parts.log.error({ kind: sent.kind }, 'an urgent text could not be sent while the register is away; it is tried again');
  return entry;
}

function isUrgentText(entry: Waiting): entry is Extract<Waiting, { kind: 'text' }> {
  return entry.kind === 'text' && entry.urgent;
}
