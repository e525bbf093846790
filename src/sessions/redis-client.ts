// A Redis connection that fails fast and says what to do about it: a webhook must answer in seconds, whatever Redis does.
// Knows nothing of sessions. Next: redis.ts.

import { Redis } from 'ioredis';
import type { RedisClient } from './redis-scripts.ts';

export interface RedisTimes {
  /** A command without an answer is given up after this. */
  readonly commandMilliseconds: number;
  readonly connectMilliseconds: number;
  /** The longest pause between two attempts to connect again. */
  readonly reconnectMilliseconds: number;
}

export const usualRedisTimes: RedisTimes = {
  commandMilliseconds: 2_000,
  connectMilliseconds: 2_000,
  reconnectMilliseconds: 2_000,
};

/** A client that reconnects for ever, but lets no command wait for it longer than one attempt and `commandMilliseconds`. */
export function connectRedis(url: string, times: RedisTimes = usualRedisTimes): Redis {
  const client = new Redis(url, {
    commandTimeout: times.commandMilliseconds,
    connectTimeout: times.connectMilliseconds,
    maxRetriesPerRequest: 1,
    retryStrategy: (attempt) => Math.min(attempt * 100, times.reconnectMilliseconds),
  });
  // Without a listener ioredis prints every failed attempt. The command that fails carries the cause.
  client.on('error', () => {});
  return client;
}

/** Waits for an answer; a failure becomes an error that names the server and the remedy, with the cause inside. */
export async function orRemedy<T>(client: RedisClient, answer: Promise<T>): Promise<T> {
  try {
    return await answer;
  } catch (cause) {
    throw new Error(
      `Redis at ${placeOf(client)} did not answer: ${reasonOf(cause)}. ` +
        'Check that it runs and can be reached from here, and that REDIS_URL names it with its user and password.',
      { cause },
    );
  }
}

/** Host and port, never the password. */
function placeOf(client: RedisClient): string {
  return client instanceof Redis ? (client.options.path ?? `${client.options.host}:${client.options.port}`) : 'the cluster';
}

function reasonOf(cause: unknown): string {
  return cause instanceof Error ? cause.message.replace(/(?<![.\s])[.\s]+$/, '') : String(cause);
}
