// A node of a Redis Cluster does not answer: phones whose sessions it had are told so in time, all others go on, and when it is back so are they.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { redisSessions } from '../../src/sessions/redis.ts';
import { freshPhone } from '../support/fresh-phone.ts';
import { type RedisCluster, startRedisCluster } from '../support/redis-cluster.ts';

let cluster: RedisCluster;

beforeAll(async () => {
  cluster = await startRedisCluster();
});
afterAll(() => cluster?.stop());

/** How long a condition may take on a busy machine; it is met at once on an idle one. */
const patiently = { timeout: 30_000 };
const phones = Array.from({ length: 12 }, freshPhone);

describe('sessions in a Redis Cluster', () => {
  it('go on for the phones of the other nodes while one does not answer, and for all when it does', async () => {
    const sessions = redisSessions({ url: cluster.urls });
    let message = 0;
    const askedOf = (phone: string): Promise<string> => {
      message += 1;
      const id = `m${message}`;
      return sessions.open(phone, id, 0).then(
        async (opened) => {
          if (opened.kind === 'held') await sessions.close(opened.held, id, 's', 'r', 0);
          return opened.kind;
        },
        (error: Error) => error.message,
      );
    };
    const asked = (): Promise<string[]> => Promise.all(phones.map(askedOf));
    expect(new Set(await asked())).toEqual(new Set(['held']));

    cluster.nodes[0]?.freeze();
    const meanwhile = await asked();
    // A server that serves two phones of three is not taken from behind its balancer.
    await sessions.answers();
    cluster.nodes[0]?.thaw();
    expect(meanwhile).toContain('held');
    const failures = meanwhile.filter((kind) => kind !== 'held');
    expect(failures.length).toBeGreaterThan(0);
    for (const failure of failures) expect(failure).toContain('Redis at the cluster did not answer');

    await expect.poll(async () => new Set(await asked()), patiently).toEqual(new Set(['held']));
    await sessions.end();
  });
});
