// The Sessions and Register ports in plain memory, for tests of what stands above them. Held to the same conformance suites
// as the real ones (tests/conformance/memory.test.ts).

import type { AlertRecord, AlertState, Entry, Held, Opened, Register, Sent, Sessions, TextOut } from '../../src/conversation/ports.ts';
import { storableJson, storableText } from '../../src/register/storable.ts';
import { outcomeOf, type Resending, usualResending } from '../../src/register/texts.ts';
import { type Lifetimes, usualLifetimes } from '../../src/sessions/lifetimes.ts';

interface Until<T> {
  readonly value: T;
  readonly until: number;
}

export function memorySessions(lifetimes: Lifetimes = usualLifetimes): Sessions {
  const sessions = new Map<string, Until<string>>();
  const replies = new Map<string, Until<string>>();
  const locks = new Map<string, Until<string>>();
  let opened = 0;
  const live = (memory: Map<string, Until<string>>, key: string, now: number): string | undefined => {
    const found = memory.get(key);
    return found !== undefined && found.until > now ? found.value : undefined;
  };
  return {
    async open(phone, messageId, now): Promise<Opened> {
      const reply = live(replies, `${phone} ${messageId}`, now);
      if (reply !== undefined) return { kind: 'repeated', reply };
      if (live(locks, phone, now) !== undefined) return { kind: 'busy' };
      opened += 1;
      const token = String(opened);
      locks.set(phone, { value: token, until: now + lifetimes.lockMilliseconds });
      return { kind: 'held', held: { phone, token, session: live(sessions, phone, now) ?? null } };
    },
    async close(held: Held, messageId, session, reply, now): Promise<boolean> {
      if (live(locks, held.phone, now) !== held.token) return false;
      locks.delete(held.phone);
      sessions.set(held.phone, { value: session, until: now + lifetimes.sessionMilliseconds });
      replies.set(`${held.phone} ${messageId}`, { value: reply, until: now + lifetimes.replyMilliseconds });
      return true;
    },
    async release(held): Promise<void> {
      if (locks.get(held.phone)?.value === held.token) locks.delete(held.phone);
    },
    async end(): Promise<void> {},
  };
}

type TextEntry = Extract<Entry, { kind: 'text' }>;

/** One move of an alert, as the register's history tells it. */
export interface Move {
  readonly from: AlertState | null;
  readonly to: AlertState;
  readonly by: string;
  readonly at: number;
}

export interface MemoryText extends TextOut {
  readonly at: number;
  readonly dueAt: number;
  readonly state: 'due' | 'sent' | 'unknown' | 'given-up';
  readonly gatewayId: string | null;
  readonly reason: string | null;
}

/** The register with a view of what it holds. */
export interface MemoryRegister extends Register {
  readonly entries: ReadonlyMap<string, Entry>;
  readonly history: ReadonlyMap<string, readonly Move[]>;
  readonly texts: ReadonlyMap<string, MemoryText>;
  /** True: every call fails, as when the database is away. */
  isDown: boolean;
}

export function memoryRegister(resending: Resending = usualResending): MemoryRegister {
  const entries = new Map<string, Entry>();
  const alerts = new Map<string, AlertRecord>();
  const history = new Map<string, readonly Move[]>();
  const texts = new Map<string, MemoryText>();

  const reach = (): void => {
    if (register.isDown) throw new Error('The register is down.');
  };
  const write = (news: readonly Entry[]): void => {
    for (const entry of news) if (!Number.isFinite(entry.at)) throw new Error(`Entry ${entry.key} has no instant.`);
    for (const entry of news.map(asKept)) {
      if (entries.has(entry.key)) continue;
      entries.set(entry.key, entry);
      if (entry.kind === 'text') texts.set(entry.key, queued(entry));
      if (entry.kind !== 'alert') continue;
      const { kind: _, ...facts } = entry;
      alerts.set(entry.key, { ...facts, state: 'open', takenBy: null });
      history.set(entry.key, [{ from: null, to: 'open', by: entry.worker, at: entry.at }]);
    }
  };

  const register: MemoryRegister = {
    entries,
    history,
    texts,
    isDown: false,
    async record(news) {
      reach();
      write(news);
    },
    async findAlerts(code) {
      reach();
      return [...alerts.values()].filter((alert) => alert.code === code && alert.state !== 'closed').sort((a, b) => b.at - a.at);
    },
    async moveAlert(key, from, to, by, at, news) {
      reach();
      const alert = alerts.get(key);
      if (alert === undefined || alert.state !== from) return null;
      write(news);
      const moved: AlertRecord = { ...alert, state: to, takenBy: to === 'open' ? null : to === 'taken' ? by : (alert.takenBy ?? by) };
      alerts.set(key, moved);
      history.set(key, [...(history.get(key) ?? []), { from, to, by, at }]);
      return moved;
    },
    async claimTexts(at, limit, claimMilliseconds) {
      reach();
      const isDue = (text: MemoryText): boolean => text.state === 'due' && text.dueAt <= at;
      for (const text of [...texts.values()].filter(isDue)) {
        const pauses = text.urgent ? resending.urgentPausesMilliseconds : resending.otherPausesMilliseconds;
        if (text.attempts > pauses.length) texts.set(text.key, { ...text, state: 'given-up', reason: 'sender-lost' });
      }
      const picked = [...texts.values()]
        .filter(isDue)
        .sort((a, b) => Number(b.urgent) - Number(a.urgent) || a.at - b.at)
        .slice(0, limit);
      return picked.map((text): TextOut => {
        const claimed = { ...text, attempts: text.attempts + 1, dueAt: at + claimMilliseconds };
        texts.set(text.key, claimed);
        const { key, to, text: words, urgent, attempts } = claimed;
        return { key, to, text: words, urgent, attempts };
      });
    },
    async settleText(key, sent: Sent, at) {
      reach();
      const text = texts.get(key);
      if (text === undefined || text.state === 'sent') return;
      const { state, dueAt } = outcomeOf(sent, text, at, resending);
      const gatewayId = sent.kind === 'sent' ? sent.gatewayId : null;
      const reason = sent.kind === 'failed' ? sent.reason : null;
      texts.set(key, { ...text, state, dueAt: dueAt ?? text.dueAt, gatewayId, reason });
    },
    async end() {},
  };
  return register;
}

/** As a database keeps it: text without what it refuses, a body that went through JSON. */
function asKept(entry: Entry): Entry {
  if (entry.kind === 'text') return { ...entry, text: storableText(entry.text) };
  return { ...entry, body: JSON.parse(storableJson(entry.body)) as unknown };
}

function queued({ key, to, text, urgent, at }: TextEntry): MemoryText {
  return { key, to, text, urgent, at, attempts: 0, dueAt: at, state: 'due', gatewayId: null, reason: null };
}
