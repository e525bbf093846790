// Entries that waited in a session itself, as it was before they were kept beside the sessions: read once after the upgrade and
// made whole, so that none is lost over it. Sessions live for 30 days; after that this file may go. Next: stored-session.ts.

import type { Waiting } from './ports.ts';

type Old = Readonly<Record<string, unknown>>;

/** Those that can be read; what is no entry is left out. Never throws. */
export function readUnsaved(unsaved: unknown): Waiting[] {
  return Array.isArray(unsaved) ? unsaved.filter(isOld).flatMap((entry) => madeWhole(entry) ?? []) : [];
}

function isOld(entry: unknown): entry is Old {
  return typeof entry === 'object' && entry !== null && 'key' in entry && typeof entry.key === 'string' && 'at' in entry;
}

/** The baby was named by the key alone, and what is known of it stood in the body alone. */
function madeWhole(entry: Old): Waiting | null {
  const key = String(entry.key);
  const body = (entry.body ?? {}) as { readonly interpretation?: { readonly urgency?: unknown }; readonly version?: unknown };
  switch (entry.kind) {
    case 'text':
      return entry as unknown as Waiting;
    case 'alert':
      return { baby: key.replace(/^alert:/, ''), ...entry } as unknown as Waiting;
    case 'examination':
      return {
        baby: key.replace(/^examination:(.*):\d+$/, '$1'),
        flow: '',
        urgency: String(body.interpretation?.urgency ?? ''),
        version: String(body.version ?? ''),
        facts: { sex: null, bornAt: null, gestationDays: null, birthWeightGrams: null, card: null },
        ...entry,
      } as unknown as Waiting;
    default:
      return null;
  }
}
