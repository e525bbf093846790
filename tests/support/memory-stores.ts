// The Sessions and Register ports in plain memory, for tests of what stands above them. Held to the same conformance suites
// as the real ones (tests/conformance/memory.test.ts).

import type { AlertRecord, Entry, Held, Opened, Register, Sessions, TextOut } from '../../src/conversation/ports.ts';

export function memorySessions(lockMilliseconds = 10_000): Sessions {
  const sessions = new Map<string, string>();
  const replies = new Map<string, string>();
  const locks = new Map<string, { token: string; until: number }>();
  let opened = 0;
  return {
    async open(phone, messageId, now): Promise<Opened> {
      const reply = replies.get(`${phone} ${messageId}`);
      if (reply !== undefined) return { kind: 'repeated', reply };
      const lock = locks.get(phone);
      if (lock !== undefined && lock.until > now) return { kind: 'busy' };
      opened += 1;
      const token = String(opened);
      locks.set(phone, { token, until: now + lockMilliseconds });
      return { kind: 'held', held: { phone, token, session: sessions.get(phone) ?? null } };
    },
    async close(held: Held, messageId, session, reply, now): Promise<boolean> {
      const lock = locks.get(held.phone);
      if (lock?.token !== held.token || lock.until <= now) return false;
      locks.delete(held.phone);
      sessions.set(held.phone, session);
      replies.set(`${held.phone} ${messageId}`, reply);
      return true;
    },
    async release(held): Promise<void> {
      if (locks.get(held.phone)?.token === held.token) locks.delete(held.phone);
    },
    async end(): Promise<void> {},
  };
}

interface MemoryText extends TextOut {
  readonly at: number;
  readonly state: 'ready' | 'sent';
}

/** The register with a view of what it holds. */
export interface MemoryRegister extends Register {
  readonly entries: ReadonlyMap<string, Entry>;
  /** True: every write fails, as when the database is away. */
  isDown: boolean;
}

export function memoryRegister(): MemoryRegister {
  const entries = new Map<string, Entry>();
  const alerts = new Map<string, AlertRecord>();
  const texts = new Map<string, MemoryText>();
  const register: MemoryRegister = {
    entries,
    isDown: false,
    async record(news) {
      if (register.isDown) throw new Error('The register is down.');
      for (const entry of news) {
        if (entries.has(entry.key)) continue;
        entries.set(entry.key, entry);
        if (entry.kind === 'alert') alerts.set(entry.key, { ...entry, state: 'open', takenBy: null });
        if (entry.kind === 'text') texts.set(entry.key, { ...entry, attempts: 0, state: 'ready' });
      }
    },
    async findAlerts(code) {
      return [...alerts.values()].filter((alert) => alert.code === code && alert.state !== 'closed').sort((a, b) => b.at - a.at);
    },
    async moveAlert(key, from, to, by, _at, news) {
      const alert = alerts.get(key);
      if (alert === undefined || alert.state !== from) return null;
      const moved: AlertRecord = { ...alert, state: to, takenBy: to === 'open' ? null : (alert.takenBy ?? by) };
      alerts.set(key, moved);
      await register.record(news);
      return moved;
    },
    async claimTexts(at, limit) {
      const due = [...texts.values()].filter((text) => text.state === 'ready' && text.at <= at);
      return due.sort((a, b) => Number(b.urgent) - Number(a.urgent)).slice(0, limit);
    },
    async settleText(key) {
      const text = texts.get(key);
      if (text !== undefined) texts.set(key, { ...text, state: 'sent' });
    },
    async end() {},
  };
  return register;
}
