// The Sessions port in a single Redis and in a Redis Cluster of three nodes.

import { type Cluster, Redis } from 'ioredis';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { redisSessions, sessionKeys } from '../../src/sessions/redis.ts';
import { connectRedis } from '../../src/sessions/redis-client.ts';
import type { RedisClient } from '../../src/sessions/redis-scripts.ts';
import { freshPhone } from '../support/fresh-phone.ts';
import { type RedisCluster, startRedisCluster } from '../support/redis-cluster.ts';
import { type RedisServer, startRedisServer } from '../support/redis-server.ts';
import { openHeld, type SessionsHarness, sessionsConformance, testLifetimes } from './sessions.ts';

let single: RedisServer;
let cluster: RedisCluster;
let client: Redis;
let clusterClient: Cluster;
let harness: SessionsHarness;
let clusterHarness: SessionsHarness;

beforeAll(async () => {
  [single, cluster] = await Promise.all([startRedisServer(), startRedisCluster()]);
  client = new Redis(single.url);
  clusterClient = connectRedis(cluster.urls) as Cluster;
  harness = harnessOver(client);
  clusterHarness = harnessOver(clusterClient);
});

afterAll(async () => {
  client?.disconnect();
  clusterClient?.disconnect();
  await Promise.all([single?.stop(), cluster?.stop()]);
});

sessionsConformance('Redis', () => harness);
sessionsConformance('Redis Cluster', () => clusterHarness);

describe('sessions in Redis', () => {
  it('open, close and release are one round trip each', async () => {
    const sent = vi.spyOn(client, 'sendCommand');
    try {
      const phone = freshPhone();
      const held = await openHeld(harness, phone, 'm1');
      expect(sent).toHaveBeenCalledTimes(1);
      await harness.sessions.close(held, 'm1', 's1', 'r1', 0);
      expect(sent).toHaveBeenCalledTimes(2);
      await harness.sessions.release(held);
      expect(sent).toHaveBeenCalledTimes(3);
    } finally {
      sent.mockRestore();
    }
  });

  it('that many phones ask for at once leave in one write', async () => {
    const own = connectRedis(single.url) as Redis;
    const sessions = redisSessions({ client: own });
    try {
      await own.ping();
      const { stream } = own;
      const corks = vi.spyOn(stream, 'uncork');
      const writes = vi.spyOn(stream, 'write');
      const opened = await Promise.all(Array.from({ length: 20 }, () => sessions.open(freshPhone(), 'm1', 0)));
      expect(opened.map(({ kind }) => kind)).toEqual(Array(20).fill('held'));
      expect([writes.mock.calls.length, corks.mock.calls.length, stream.writableCorked]).toEqual([20, 1, 0]);
    } finally {
      own.disconnect();
    }
  });

  it('puts all keys of one phone in one slot', async () => {
    const { reply, lock, session } = sessionKeys('pipit', freshPhone(), 'SM{1}');
    const slots = await Promise.all([reply, lock, session].map((key) => clusterClient.cluster('KEYSLOT', key)));
    expect(new Set(slots).size).toBe(1);
  });

  it('spreads phones over the slots', async () => {
    const keys = Array.from({ length: 20 }, () => sessionKeys('pipit', freshPhone(), 'm1').lock);
    const slots = await Promise.all(keys.map((key) => clusterClient.cluster('KEYSLOT', key)));
    expect(new Set(slots).size).toBeGreaterThan(1);
  });

  it('leaves no key without an expiry', async () => {
    const phone = freshPhone();
    await harness.sessions.close(await openHeld(harness, phone, 'm1'), 'm1', 's1', 'r1', 0);
    await openHeld(harness, phone, 'm2');
    const keys = await client.keys('*');
    expect(keys.filter((key) => key.includes(phone))).toHaveLength(3);
    expect(await Promise.all(keys.map((key) => client.pttl(key)))).not.toContain(-1);
  });

  it('goes on after SCRIPT FLUSH between two calls', async () => {
    const phone = freshPhone();
    const held = await openHeld(harness, phone, 'm1');
    await client.script('FLUSH');
    expect(await harness.sessions.close(held, 'm1', 's1', 'r1', 0)).toBe(true);
    await client.script('FLUSH');
    expect(await openHeld(harness, phone, 'm2')).toMatchObject({ session: 's1' });
  });

  it('keeps programmes with different prefixes apart', async () => {
    const phone = freshPhone();
    await harness.sessions.close(await openHeld(harness, phone, 'm1'), 'm1', 's1', 'r1', 0);
    const other = { ...harness, sessions: redisSessions({ client, prefix: 'other' }) };
    expect((await openHeld(other, phone, 'm1')).session).toBeNull();
  });

  it('refuses a prefix that would move the hash tag', () => {
    expect(() => redisSessions({ client, prefix: 'a{b}' })).toThrow('Write it without { and }');
  });

  it('leaves a connection open that belongs to the caller, and closes its own', async () => {
    await redisSessions({ client }).end();
    expect(await client.ping()).toBe('PONG');

    const own = redisSessions({ url: single.url });
    await own.open(freshPhone(), 'm1', 0);
    await own.end();
    await expect(own.open(freshPhone(), 'm1', 0)).rejects.toThrow('Connection is closed');
  });
});

/** Redis keeps its own time. A key is made to expire at once, after a look that it was to expire by itself. */
function harnessOver(redis: RedisClient): SessionsHarness {
  return {
    sessions: redisSessions({ client: redis, ...testLifetimes }),
    now: () => 0,
    async runOut(what, phone, messageId) {
      const key = sessionKeys('pipit', phone, messageId, messageId)[what];
      const left = await redis.pttl(key);
      expect(left).toBeGreaterThan(0);
      expect(left).toBeLessThanOrEqual(testLifetimes[`${what}Milliseconds`]);
      await redis.pexpire(key, 0);
    },
  };
}
