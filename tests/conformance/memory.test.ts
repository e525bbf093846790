// The stores that other tests stand on, in plain memory, held to what every store promises. The suites look beneath the
// port with a few statements of SQL; a reader below answers those from the memory, and refuses all others.

import { beforeAll } from 'vitest';
import type { Database, Sql } from '../../src/register/database.ts';
import { type MemoryRegister, memoryRegister, memorySessions } from '../support/memory-stores.ts';
import { type RegisterHarness, registerConformance } from './register.ts';
import { testResending, textsConformance } from './register-texts.ts';
import { type SessionsHarness, sessionsConformance, testLifetimes } from './sessions.ts';

let register: MemoryRegister;
let harness: RegisterHarness;
let sessionsHarness: SessionsHarness;

beforeAll(() => {
  register = memoryRegister(testResending);
  harness = { register, database: readerOf(register) };
  let now = Date.UTC(2026, 0, 1);
  sessionsHarness = {
    sessions: memorySessions(testLifetimes),
    now: () => now,
    async runOut(what) {
      now += testLifetimes[`${what}Milliseconds`];
    },
  };
});

sessionsConformance('memory', () => sessionsHarness);
registerConformance('memory', () => harness);
textsConformance('memory', () => harness);

const kinds: Readonly<Record<string, string>> = { examinations: 'examination', alerts: 'alert', texts_out: 'text' };

function readerOf(memory: MemoryRegister): Database {
  const query = async (statement: string, [key]: readonly unknown[] = []): Promise<object[]> => {
    const table = /^select .+ from (\w+) where (?:key|alert) = \$1/.exec(statement)?.[1];
    if (table === 'alert_history') {
      return (memory.history.get(String(key)) ?? []).map(({ from, to, by, at }, move) => ({
        move,
        state_from: from,
        state_to: to,
        by,
        at,
      }));
    }
    if (table === 'texts_out' && statement.startsWith('select state')) {
      const text = memory.texts.get(String(key));
      return text === undefined
        ? []
        : [{ state: text.state, due_at: text.dueAt, attempts: text.attempts, gateway_id: text.gatewayId, reason: text.reason }];
    }
    if (table !== undefined) {
      const entry = memory.entries.get(String(key));
      return entry?.kind === kinds[table] ? [{ ...entry }] : [];
    }
    if (statement.startsWith('update texts_out')) {
      const due = [...memory.texts.values()].filter((text) => text.state === 'due');
      for (const text of due) await memory.settleText(text.key, { kind: 'sent', gatewayId: 'swept' }, text.at);
      return [];
    }
    // The history has no way to be changed at all, so its refusals are this reader's own.
    throw new Error(`The memory cannot do "${statement}". Insert a further row instead.`);
  };
  const sql: Sql = { query: query as Sql['query'], script: async () => {} };
  return { ...sql, transaction: (work) => work(sql), close: async () => {} };
}
