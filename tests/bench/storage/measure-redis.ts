// What the keys of sessions and of remembered replies take in Redis, with their part of what no single key accounts for: the tables of
// keys and of expiries. Next: run.ts.

import type { Redis } from 'ioredis';

export interface RedisBytes {
  /** Of one session, mean. */
  readonly session: number;
  /** Of one remembered reply, mean. */
  readonly reply: number;
  readonly replies: number;
}

/** Takes  fill: puts the sessions and replies into a Redis that is empty. */
export async function measureRedis(client: Redis, fill: () => Promise<void>): Promise<RedisBytes> {
  const before = await usedBytes(client);
  await fill();
  const grown = (await usedBytes(client)) - before;
  const sessions = await sizesOf(client, '*:session');
  const replies = await sizesOf(client, '*:reply:*');
  const single = sum(sessions) + sum(replies);
  if (sessions.length === 0 || replies.length === 0) throw new Error('Nothing was kept in Redis. Run the conformance tests first.');
  const whole = Math.max(1, grown / single);
  const mean = (sizes: readonly number[]): number => Math.round((whole * sum(sizes)) / sizes.length);
  return { session: mean(sessions), reply: mean(replies), replies: replies.length };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

export async function usedBytes(client: Redis): Promise<number> {
  return Number(/^used_memory:(\d+)/m.exec(await client.info('memory'))?.[1]);
}

async function sizesOf(client: Redis, pattern: string): Promise<number[]> {
  const sizes: number[] = [];
  let cursor = '0';
  do {
    const [next, keys] = await client.scan(cursor, 'MATCH', pattern, 'COUNT', 500);
    for (const key of keys) sizes.push(Number(await client.memory('USAGE', key, 'SAMPLES', 0)));
    cursor = next;
  } while (cursor !== '0');
  return sizes;
}
