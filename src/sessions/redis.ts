// The Sessions port in Redis: four keys a phone and message, two for all that is kept, one script and one round trip a call.
// Redis runs a script alone, so "the lock is mine" and "write" cannot be separated. Time is Redis's own: each key of a phone
// carries its expiry.
// Next: scripts/*.lua, and embedded.ts, which does the same in SQL.

import { randomUUID } from 'node:crypto';
import { Cluster } from 'ioredis';
import type { Held, Opened, Sessions, Waiting } from '../conversation/ports.ts';
import { type Lifetimes, usualLifetimes } from './lifetimes.ts';
import { connectRedis, orRemedy, type RedisTimes, usualRedisTimes } from './redis-client.ts';
import { addSessionCommands, type RedisClient } from './redis-scripts.ts';

export interface RedisSessionsOptions extends Partial<Lifetimes> {
  /** Before every key, so that programmes can share a Redis. Braces are refused: they would move the hash tag. */
  readonly prefix?: string;
}

export type RedisPlace =
  /** A connection of our own; `end` closes it. */
  | { readonly url: string; readonly times?: RedisTimes }
  /** A connection (or a Cluster) that belongs to the caller; `end` leaves it open. */
  | { readonly client: RedisClient };

/** Sessions in the Redis at `place`. Connecting goes on in the background: the first command that needs it fails or waits. */
export function redisSessions({ prefix = 'pipit', ...options }: RedisPlace & RedisSessionsOptions): Sessions {
  if (/[{}]/.test(prefix)) {
    throw new Error(
      `The Redis key prefix "${prefix}" holds a brace. Write it without { and }: those mark the part of a key that Redis Cluster hashes.`,
    );
  }
  const lifetimes = { ...usualLifetimes, ...options };
  const client = 'client' in options ? options.client : connectRedis(options.url, options.times);
  const commands = addSessionCommands(client);
  const { commandMilliseconds } = ('url' in options ? options.times : undefined) ?? usualRedisTimes;
  const answered = <T>(answer: Promise<T>): Promise<T> => orRemedy(client, answer, commandMilliseconds);

  return {
    async open(phone, messageId, _now, like): Promise<Opened> {
      const keys = sessionKeys(prefix, phone, messageId, like);
      const token = randomUUID();
      const { lockMilliseconds, replyMilliseconds } = lifetimes;
      const [kind, text] = await answered(
        commands.openSession(keys.reply, keys.lock, keys.session, keys.alike, token, lockMilliseconds, replyMilliseconds),
      );
      if (kind === 'repeated') return { kind, reply: text };
      if (kind === 'busy') return { kind };
      return { kind, held: { phone, token, session: text } };
    },

    async close(held: Held, messageId, session, reply, _now, like): Promise<boolean> {
      const keys = sessionKeys(prefix, held.phone, messageId, like?.by);
      const { sessionMilliseconds, replyMilliseconds } = lifetimes;
      const written = await answered(
        commands.closeSession(
          ...([keys.reply, keys.lock, keys.session, keys.alike, held.token, session] as const),
          ...([sessionMilliseconds, reply, replyMilliseconds, like?.milliseconds ?? 0] as const),
        ),
      );
      return written === 1;
    },

    async release(held: Held): Promise<void> {
      await answered(commands.releaseLock(sessionKeys(prefix, held.phone, '').lock, held.token));
    },

    async keep(waiting): Promise<void> {
      if (waiting.length === 0) return;
      await answered(commands.keepEntries(...keptKeys(prefix), ...waiting.flatMap((entry) => [entry.key, JSON.stringify(entry)])));
    },

    async kept(limit): Promise<Waiting[]> {
      const texts = await answered(commands.keptEntries(...keptKeys(prefix), limit));
      return texts.map((text) => JSON.parse(text) as Waiting);
    },

    async letGo(keys): Promise<void> {
      if (keys.length > 0) await answered(commands.letGoEntries(...keptKeys(prefix), ...keys));
    },

    async answers(): Promise<void> {
      await answered(client instanceof Cluster ? Promise.any(client.nodes('master').map((node) => node.ping())) : client.ping());
    },

    async end(): Promise<void> {
      if ('url' in options) client.disconnect();
    },
  };
}

/** The keys of one phone share the hash tag `{phone}`, and so a slot: Redis Cluster keeps them on one node. */
export function sessionKeys(prefix: string, phone: string, messageId: string, like?: string) {
  const tag = `${prefix}:{${phone}}`;
  const reply = `${tag}:reply:${messageId}`;
  return { reply, lock: `${tag}:lock`, session: `${tag}:session`, alike: like === undefined ? reply : `${tag}:alike:${like}` };
}

/** The order of what is kept, and the entries themselves: one slot for both. */
export function keptKeys(prefix: string): [order: string, entries: string] {
  return [`${prefix}:{kept}:order`, `${prefix}:{kept}:entries`];
}
