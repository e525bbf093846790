// Writes what was kept while the register was away, once it is back. Any number of processes may do so at once: every entry has
// its key, so that it is written once, and is let go only after it was written. What the register refuses is passed over for a while,
// so that any number of such holds back no other. Urgent texts that it has not taken are tried again. Next: record.ts, which keeps them.

import type { Register, SendText, Sessions, Waiting } from './ports.ts';

const batch = 50;
/** A gateway that loses its answers may have sent the text each time: not too often. */
const pauseMilliseconds = { failed: 10_000, unknown: 60_000 } as const;
const refusedPauseMilliseconds = 60_000;

export interface KeptParts {
  readonly sessions: Pick<Sessions, 'keep' | 'kept' | 'letGo'>;
  readonly register: Pick<Register, 'record' | 'findAlerts'>;
  readonly send: SendText;
  readonly now: () => number;
  /** An entry that the register refuses while it takes others: a fault of ours. It stays kept. */
  readonly refused: (entry: Waiting, error: unknown) => void;
}

/**
 * A function that says how many entries it wrote; 0 when nothing is kept that can be written.
 *
 * Errors   of that function: the register or the session store is away; what is kept stays.
 */
export function keptWriter(parts: KeptParts): () => Promise<number> {
  const { sessions, register, now } = parts;
  const tries: Tries = { sending: new Map(), writing: new Map() };
  return async () => {
    const isDue = ({ key }: Waiting): boolean => now() >= (tries.writing.get(key) ?? 0);
    const waiting = (await sessions.kept(batch + tries.writing.size)).filter(isDue).slice(0, batch);
    if (waiting.length === 0) return 0;
    const written = await register.record(waiting).then(
      () => waiting,
      () => writeEach(waiting, tries, parts),
    );
    await sessions.letGo(written.map(({ key }) => key));
    for (const { key } of written) {
      tries.sending.delete(key);
      tries.writing.delete(key);
    }
    return written.length;
  };
}

/** Key -> from when on it may be tried again; of this process, and no more than was tried in vain. */
interface Tries {
  readonly sending: Map<string, number>;
  readonly writing: Map<string, number>;
}

/** One that cannot be written must not hold back the others. */
async function writeEach(waiting: readonly Waiting[], tries: Tries, parts: KeptParts): Promise<Waiting[]> {
  try {
    await parts.register.findAlerts('');
  } catch (away) {
    // Nothing is the matter with the entries.
    for (const entry of waiting) await sendAgain(entry, tries.sending, parts);
    throw away;
  }
  const written: Waiting[] = [];
  for (const entry of waiting) {
    const refusal = await parts.register.record([entry]).then(
      () => null,
      (error: unknown) => ({ error }),
    );
    if (refusal === null) {
      written.push(entry);
      continue;
    }
    tries.writing.set(entry.key, parts.now() + refusedPauseMilliseconds);
    parts.refused(entry, refusal.error);
    await sendAgain(entry, tries.sending, parts);
  }
  return written;
}

async function sendAgain(entry: Waiting, dueAt: Map<string, number>, { sessions, send, now }: KeptParts): Promise<void> {
  if (entry.kind !== 'text' || !entry.urgent || entry.gatewayId !== undefined) return;
  if (now() < (dueAt.get(entry.key) ?? 0)) return;
  const sent = await send({ key: entry.key, to: entry.to, text: entry.text });
  if (sent.kind !== 'sent') {
    dueAt.set(entry.key, now() + pauseMilliseconds[sent.kind]);
    return;
  }
  // It has gone out; should this process die between the two, only the line that says so is lost.
  await sessions.letGo([entry.key]);
  await sessions.keep([{ ...entry, gatewayId: sent.gatewayId }]);
}
