// Gives a Redis client the commands of scripts/*.lua. A script's name ends in the number of its keys.
// No decision is taken here: what a script does stands in its own file. Next: redis.ts.

import { readFileSync } from 'node:fs';
import type { Cluster, Redis } from 'ioredis';

export type RedisClient = Redis | Cluster;

type OpenAnswer = readonly ['repeated', string] | readonly ['busy'] | readonly ['held', string | null];

export interface SessionCommands {
  openSession(
    reply: string,
    lock: string,
    session: string,
    alike: string,
    token: string,
    lockMilliseconds: number,
    replyMilliseconds: number,
  ): Promise<OpenAnswer>;
  closeSession(
    reply: string,
    lock: string,
    session: string,
    alike: string,
    token: string,
    sessionText: string,
    sessionMilliseconds: number,
    replyText: string,
    replyMilliseconds: number,
    alikeMilliseconds: number,
  ): Promise<0 | 1>;
  releaseLock(lock: string, token: string): Promise<0 | 1>;
  keepEntries(order: string, entries: string, ...keysAndTexts: string[]): Promise<null>;
  keptEntries(order: string, entries: string, limit: number): Promise<string[]>;
  letGoEntries(order: string, entries: string, ...keys: string[]): Promise<null>;
}

const scripts = {
  openSession: 'open-session-4.lua',
  closeSession: 'close-session-4.lua',
  releaseLock: 'release-lock-1.lua',
  keepEntries: 'keep-entries-2.lua',
  keptEntries: 'kept-entries-2.lua',
  letGoEntries: 'let-go-entries-2.lua',
} satisfies Record<keyof SessionCommands, string>;

/** The client's own commands with ours beside them. ioredis sends EVALSHA, and the text again after a SCRIPT FLUSH. */
export function addSessionCommands(client: RedisClient): SessionCommands {
  for (const [name, file] of Object.entries(scripts)) {
    const lua = readFileSync(new URL(`scripts/${file}`, import.meta.url), 'utf8');
    client.defineCommand(name, { numberOfKeys: Number(/-(\d+)\.lua$/.exec(file)?.[1]), lua });
  }
  return client as RedisClient & SessionCommands;
}
