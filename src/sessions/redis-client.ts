// A Redis connection that fails fast and says what to do about it: a webhook must answer in seconds, whatever Redis does.
// Knows nothing of sessions. Next: redis.ts.

import { Cluster, Redis } from 'ioredis';
import type { RedisClient } from './redis-scripts.ts';

export interface RedisTimes {
  /** A command without an answer is given up after this. */
  readonly commandMilliseconds: number;
  readonly connectMilliseconds: number;
  /** The longest pause between two attempts to connect again. */
  readonly reconnectMilliseconds: number;
  /** A command waits until the nodes of a cluster are known; false: it fails at once. */
  readonly waitsForNodes?: boolean;
}

export const usualRedisTimes: RedisTimes = {
  commandMilliseconds: 2_000,
  connectMilliseconds: 2_000,
  reconnectMilliseconds: 2_000,
};

/**
 * A client that reconnects for ever, but lets no command wait for it longer than one attempt and `commandMilliseconds`.
 *
 * Takes    urls: of one server, or of several nodes of a Redis Cluster, with commas; the others are found through them.
 */
export function connectRedis(urls: string, times: RedisTimes = usualRedisTimes): RedisClient {
  const [first = '', ...others] = urls.split(',');
  const client = others.length === 0 ? connectServer(first, times) : connectCluster([first, ...others], times);
  // Without a listener ioredis prints every failed attempt. The command that fails carries the cause.
  client.on('error', () => {});
  return client;
}

const limitsOf = ({ commandMilliseconds, connectMilliseconds }: RedisTimes) =>
  ({ commandTimeout: commandMilliseconds, connectTimeout: connectMilliseconds, maxRetriesPerRequest: 1 }) as const;

/** Commands of one round of the event loop leave together: what many phones ask at once is written in one call to the system. */
class GatheredWrites extends Redis {
  private isGathering = false;

  override sendCommand(...sent: Parameters<Redis['sendCommand']>): unknown {
    const { stream } = this;
    if (stream?.writable === true && !this.isGathering) {
      this.isGathering = true;
      stream.cork();
      setImmediate(() => {
        this.isGathering = false;
        stream.uncork();
      });
    }
    return super.sendCommand(...sent);
  }
}

function connectServer(url: string, times: RedisTimes): Redis {
  return new GatheredWrites(url, { ...limitsOf(times), retryStrategy: (attempt) => Math.min(attempt * 100, times.reconnectMilliseconds) });
}

/** All nodes have the user and the password of the first, and are spoken to as it is. */
function connectCluster(urls: readonly string[], times: RedisTimes): Cluster {
  const { protocol, username, password } = new URL(urls[0] ?? '');
  return new Cluster([...urls], {
    clusterRetryStrategy: (attempt) => Math.min(attempt * 100, times.reconnectMilliseconds),
    slotsRefreshTimeout: times.connectMilliseconds,
    enableOfflineQueue: times.waitsForNodes ?? true,
    redisOptions: {
      ...limitsOf(times),
      ...(username === '' ? {} : { username: decodeURIComponent(username) }),
      ...(password === '' ? {} : { password: decodeURIComponent(password) }),
      ...(protocol === 'rediss:' ? { tls: {} } : {}),
    },
  });
}

/** Waits for an answer; a failure becomes an error that names the server and the remedy, with the cause inside. */
export async function orRemedy<T>(client: RedisClient, answer: Promise<T>, milliseconds: number): Promise<T> {
  try {
    return await (client instanceof Cluster ? withinTime(answer, milliseconds) : answer);
  } catch (cause) {
    throw new Error(
      `Redis at ${placeOf(client)} did not answer: ${reasonOf(cause)}. ` +
        'Check that it runs and can be reached from here, and that REDIS_URL names it with its user and password.',
      { cause },
    );
  }
}

/** Before it knows its nodes a cluster's client keeps commands for as long as that takes. */
async function withinTime<T>(answer: Promise<T>, milliseconds: number): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(new Error('Command timed out')), milliseconds);
  });
  return Promise.race([answer, late]).finally(() => clearTimeout(timer));
}

/** Host and port, never the password. */
function placeOf(client: RedisClient): string {
  return client instanceof Redis ? (client.options.path ?? `${client.options.host}:${client.options.port}`) : 'the cluster';
}

function reasonOf(cause: unknown): string {
  return cause instanceof Error ? cause.message.replace(/(?<![.\s])[.\s]+$/, '') : String(cause);
}
