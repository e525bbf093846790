// Nurses of a run of kills. Of each alert a seed says how many of them let their time run out; the next one who is asked and
// another one then answer at one instant, each until she knows whether the alert is hers. Next: end-to-end-kill-phones.ts.

import { expect } from 'vitest';
import type { TextTaken } from './end-to-end-gateway.ts';
import type { Insisting } from './end-to-end-kill-phones.ts';
import type { KilledStores } from './end-to-end-killed-stores.ts';
import { textOf } from './end-to-end-phones.ts';
import type { Stack } from './end-to-end-stack.ts';

export interface Answered {
  /** Nurses who let their time run out. */
  readonly silent: number;
  /** What each of the two was told in the end. */
  readonly told: ReadonlyMap<string, string>;
}

export interface Nurses {
  /** Codes of the alerts that a nurse has read. */
  read(): readonly string[];
  /** By the code of the alert; resolves when each alert that a nurse has read is answered. */
  answered(): Promise<ReadonlyMap<string, Answered>>;
}

/**
 * An alert that a server sent past a register that was away is in there once a process at work lives long enough to write it. While
 * kills go on that may take minutes, of a slow machine many; what is lost is claimed after the kills, not by this clock.
 */
const patiently = { timeout: 1_500_000 };
const decided = /is yours|has it already/;

export function startNurses(stack: Stack, { insist }: Insisting, stores: KilledStores, random: () => number): Nurses {
  const { nurses } = stack.programme;
  const silent = new Map<string, number>();
  const known = new Set<string>();
  const answered = new Map<string, Answered>();
  const doing: Promise<unknown>[] = [];
  const turns = new Map<string, Promise<unknown>>();

  const letTimeRunOut = (code: string, step: number): Promise<void> =>
    expect.poll(() => stores.despiteKills(() => stack.register.endTimeToTake(code, step)), patiently).toBe(true);

  const askUntilDecided = async (nurse: string, code: string): Promise<string> => {
    let reply = '';
    const ask = async (): Promise<boolean> => {
      reply = await insist(textOf(nurse, code));
      return decided.test(reply);
    };
    // Asked again where the register is away, or the alert is still kept beside the sessions.
    await expect.poll(ask, patiently).toBe(true);
    return reply;
  };
  /** A phone sends one text at a time; two phones send at one instant. */
  const takeTogether = async (pair: readonly string[], code: string): Promise<void> => {
    const before = Promise.all(pair.map((nurse) => turns.get(nurse)));
    const told = before.then(() => Promise.all(pair.map(async (nurse) => [nurse, await askUntilDecided(nurse, code)] as const)));
    for (const nurse of pair) turns.set(nurse, told);
    answered.set(code, { silent: silent.get(code) ?? 0, told: new Map(await told) });
  };

  const read = async ({ to, body }: TextTaken): Promise<void> => {
    const code = /^(\w{3}) URGENT /.exec(body)?.[1];
    const step = nurses.indexOf(to);
    if (code === undefined || step < 0 || known.has(`${code} ${step}`)) return;
    known.add(`${code} ${step}`);
    if (!silent.has(code)) silent.set(code, Math.floor(random() * nurses.length));
    const mustWait = silent.get(code) ?? 0;
    if (step < mustWait) return letTimeRunOut(code, step);
    if (step > mustWait) return;
    const others = nurses.filter((nurse) => nurse !== to);
    await takeTogether([to, others[Math.floor(random() * others.length)] ?? to], code);
  };
  stack.gateway.onText = (text) => void doing.push(read(text));
  return {
    read: () => [...silent.keys()],
    async answered() {
      for (let seen = -1; seen < doing.length; ) {
        seen = doing.length;
        await Promise.all(doing);
      }
      return answered;
    },
  };
}
