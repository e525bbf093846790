// Where entries go when the register, the gateway and the session store are there or away: every combination. Nothing waits
// for what hangs. People are invented.

import { describe, expect, it } from 'vitest';
import type { Waiting } from '../../src/conversation/ports.ts';
import { type RecordParts, record } from '../../src/conversation/record.ts';
import { alert, text } from '../conformance/entries.ts';

type Health = 'up' | 'down' | 'hangs';

const never = new Promise<never>(() => {});

function partsWith({ register, gateway, sessions }: { register: Health; gateway: Health | 'loses its answer'; sessions: Health }) {
  const [written, kept, sent, faults]: [Waiting[], Waiting[], string[], string[]] = [[], [], [], []];
  const take = async (health: Health, into: Waiting[], entries: readonly Waiting[]): Promise<void> => {
    if (health === 'down') throw new Error('away');
    if (health === 'hangs') return never;
    into.push(...entries);
  };
  const parts: RecordParts = {
    register: { record: (entries) => take(register, written, entries) },
    sessions: { keep: (entries) => take(sessions, kept, entries) },
    send: async ({ key }) => {
      sent.push(key);
      if (gateway === 'hangs') return never;
      if (gateway === 'loses its answer') return { kind: 'unknown' };
      return gateway === 'up' ? { kind: 'sent', gatewayId: `SM-${key}` } : { kind: 'failed', reason: 'away' };
    },
    // Whoever hangs is given up after all that is quick has had its turn.
    pause: () => new Promise((resolve) => setImmediate(() => setImmediate(resolve))),
    log: { error: (_, what) => void faults.push(what) },
  };
  return { parts, written, kept, sent, faults };
}

const [raised, urgent, reminder] = [alert(), text({ urgent: true }), text()];
const entries = [raised, urgent, reminder];
const withId = [raised, { ...urgent, gatewayId: `SM-${urgent.key}` }, reminder];

describe('entries of a turn', () => {
  it.each([
    { register: 'up', gateway: 'up', sessions: 'up', where: 'register', isNurseTold: true, keeps: [], sends: [] },
    { register: 'up', gateway: 'down', sessions: 'down', where: 'register', isNurseTold: true, keeps: [], sends: [] },
    { register: 'down', gateway: 'up', sessions: 'up', where: 'kept', isNurseTold: true, keeps: withId, sends: [urgent.key] },
    { register: 'hangs', gateway: 'up', sessions: 'up', where: 'kept', isNurseTold: true, keeps: withId, sends: [urgent.key] },
    { register: 'down', gateway: 'down', sessions: 'up', where: 'kept', isNurseTold: false, keeps: entries, sends: [urgent.key] },
    { register: 'down', gateway: 'hangs', sessions: 'up', where: 'kept', isNurseTold: false, keeps: entries, sends: [urgent.key] },
    {
      register: 'down',
      gateway: 'loses its answer',
      sessions: 'up',
      where: 'kept',
      isNurseTold: false,
      keeps: entries,
      sends: [urgent.key],
    },
    { register: 'down', gateway: 'up', sessions: 'down', where: 'nowhere', isNurseTold: true, keeps: [], sends: [urgent.key] },
    { register: 'hangs', gateway: 'hangs', sessions: 'hangs', where: 'nowhere', isNurseTold: false, keeps: [], sends: [urgent.key] },
  ] as const)('register $register, gateway $gateway, sessions $sessions: they are in $where, nurse told $isNurseTold', async (one) => {
    const { parts, written, kept, sent, faults } = partsWith(one);
    expect(await record(entries, parts)).toEqual({ where: one.where, isNurseTold: one.isNurseTold });
    expect(written).toEqual(one.where === 'register' ? entries : []);
    expect(kept).toEqual(one.keeps);
    expect(sent).toEqual(one.sends);
    expect(faults.length > 0).toBe(one.where !== 'register');
  });

  it('that went out already do not go out again', async () => {
    const { parts, sent, kept } = partsWith({ register: 'down', gateway: 'up', sessions: 'up' });
    expect(await record(withId, parts)).toEqual({ where: 'kept', isNurseTold: true });
    expect(sent).toEqual([]);
    expect(kept).toEqual(withId);
  });

  it('without an urgent text leave nobody untold', async () => {
    const { parts } = partsWith({ register: 'down', gateway: 'down', sessions: 'up' });
    expect(await record([reminder], parts)).toEqual({ where: 'kept', isNurseTold: true });
  });

  it('are asked of nobody when there are none', async () => {
    const { parts, faults } = partsWith({ register: 'down', gateway: 'down', sessions: 'down' });
    expect(await record([], parts)).toEqual({ where: 'register', isNurseTold: true });
    expect(faults).toEqual([]);
  });
});
