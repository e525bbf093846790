// The Sessions port in plain memory, for tests of what stands above it. Held to the same conformance suite as the real ones
// (tests/conformance/sessions-memory.test.ts). The register has none: see test-register.ts.

import type { Held, Opened, Sessions, Waiting } from '../../src/conversation/ports.ts';
import { type Lifetimes, usualLifetimes } from '../../src/sessions/lifetimes.ts';

interface Until<T> {
  readonly value: T;
  readonly until: number;
}

export function memorySessions(lifetimes: Lifetimes = usualLifetimes): Sessions {
  const sessions = new Map<string, Until<string>>();
  const replies = new Map<string, Until<string>>();
  const locks = new Map<string, Until<string>>();
  /** Entries by key, as text: what comes back is what went in, and no part of it. */
  const keptEntries = new Map<string, string>();
  let opened = 0;
  const live = (memory: Map<string, Until<string>>, key: string, now: number): string | undefined => {
    const found = memory.get(key);
    return found !== undefined && found.until > now ? found.value : undefined;
  };
  return {
    async open(phone, messageId, now, like): Promise<Opened> {
      const own = live(replies, `${phone} ${messageId}`, now);
      const reply = own ?? (like === undefined ? undefined : live(replies, `${phone} alike ${like}`, now));
      if (reply !== undefined) {
        if (own === undefined) replies.set(`${phone} ${messageId}`, { value: reply, until: now + lifetimes.replyMilliseconds });
        return { kind: 'repeated', reply };
      }
      if (live(locks, phone, now) !== undefined) return { kind: 'busy' };
      opened += 1;
      const token = String(opened);
      locks.set(phone, { value: token, until: now + lifetimes.lockMilliseconds });
      return { kind: 'held', held: { phone, token, session: live(sessions, phone, now) ?? null } };
    },
    async close(held: Held, messageId, session, reply, now, like): Promise<boolean> {
      if (live(locks, held.phone, now) !== held.token) return false;
      locks.delete(held.phone);
      sessions.set(held.phone, { value: session, until: now + lifetimes.sessionMilliseconds });
      replies.set(`${held.phone} ${messageId}`, { value: reply, until: now + lifetimes.replyMilliseconds });
      if (like !== undefined) replies.set(`${held.phone} alike ${like.by}`, { value: reply, until: now + like.milliseconds });
      return true;
    },
    async release(held): Promise<void> {
      if (locks.get(held.phone)?.value === held.token) locks.delete(held.phone);
    },
    async keep(waiting): Promise<void> {
      for (const entry of waiting) if (!keptEntries.has(entry.key)) keptEntries.set(entry.key, JSON.stringify(entry));
    },
    async kept(limit): Promise<Waiting[]> {
      return [...keptEntries.values()].slice(0, limit).map((text) => JSON.parse(text) as Waiting);
    },
    async answers(): Promise<void> {},
    async letGo(keys): Promise<void> {
      for (const key of keys) keptEntries.delete(key);
    },
    async end(): Promise<void> {},
  };
}
