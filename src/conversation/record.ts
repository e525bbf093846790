// Writes what a turn found to the register, and lets nobody wait for it: a register that is away or hangs leaves the
// entries in the session, to be written with the phone's next message, and urgent texts go straight to the gateway.
// Next: send-due.ts, which sends them otherwise.

import type { Entry, Register, SendText, Sent } from './ports.ts';

/** An entry that the register could not take yet. */
export type Waiting = Entry & {
  /** The gateway's id of a text that went out without the register. */
  readonly gatewayId?: string;
};

export interface RecordParts {
  readonly register: Register;
  readonly send: SendText;
  readonly pause: (milliseconds: number) => Promise<void>;
  readonly log: { readonly error: (about: object, what: string) => void };
}

/** Together with the session store's own limits well within the phone's lock, and within a gateway's patience. */
const registerPatienceMilliseconds = 3_000;
const gatewayPatienceMilliseconds = 2_000;
/** A text that went out already is due only after this, so that no sender takes it before it is settled. */
const settlingMilliseconds = 60_000;

/** What could not be written, with what went out all the same; empty when everything is in the register. */
export async function record(entries: readonly Waiting[], now: number, parts: RecordParts): Promise<readonly Waiting[]> {
  if (entries.length === 0) return [];
  const sent = entries.filter(({ gatewayId }) => gatewayId !== undefined);
  const toWrite = entries.map(
    ({ gatewayId, ...entry }): Entry => (gatewayId === undefined ? entry : { ...entry, at: now + settlingMilliseconds }),
  );
  const write = async (): Promise<'written'> => {
    await parts.register.record(toWrite);
    for (const { key, gatewayId = '' } of sent) await parts.register.settleText(key, { kind: 'sent', gatewayId }, now);
    return 'written';
  };
  const fault = await Promise.race([
    write().catch((error: unknown) => (error instanceof Error ? error.name : 'unknown')),
    parts.pause(registerPatienceMilliseconds).then(() => 'too slow'),
  ]);
  if (fault === 'written') return [];
  parts.log.error({ fault, entries: entries.length }, 'the register is down; entries wait in the session');
  return Promise.all(entries.map((entry) => sendIfUrgent(entry, parts)));
}

/** A register that was too slow may yet take the text and have it sent as well: told twice is better than not told. */
async function sendIfUrgent(entry: Waiting, parts: RecordParts): Promise<Waiting> {
  if (entry.kind !== 'text' || !entry.urgent || entry.gatewayId !== undefined) return entry;
  const sent = await Promise.race([
    parts.send({ key: entry.key, to: entry.to, text: entry.text }),
    parts.pause(gatewayPatienceMilliseconds).then((): Sent => ({ kind: 'unknown' })),
  ]);
  if (sent.kind === 'sent') return { ...entry, gatewayId: sent.gatewayId };
  parts.log.error({ kind: sent.kind }, 'an urgent text could not be sent while the register is down; it is tried again');
  return entry;
}
