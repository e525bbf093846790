// How many messages a phone may send: the same over Redis, for all processes together, and in memory.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { messageLimits } from '../../src/sessions/message-limit.ts';
import { freshPhone } from '../support/fresh-phone.ts';
import { type RedisCluster, startRedisCluster } from '../support/redis-cluster.ts';
import { type RedisServer, startRedisServer } from '../support/redis-server.ts';

let redis: RedisServer;
let cluster: RedisCluster;
beforeAll(async () => {
  [redis, cluster] = await Promise.all([startRedisServer(), startRedisCluster()]);
});
afterAll(async () => void (await Promise.all([redis?.stop(), cluster?.stop()])));

const rules = { phone: { messages: 3, seconds: 600 }, stranger: { messages: 1, seconds: 600 } };

async function passed(limit: { isOver(phone: string): Promise<boolean> }, phone: string, times: number): Promise<boolean[]> {
  const outcomes: boolean[] = [];
  for (let time = 0; time < times; time += 1) outcomes.push(await limit.isOver(phone));
  return outcomes;
}

describe.each([
  ['Redis', () => redis.url],
  ['a Redis Cluster', () => cluster.urls],
  ['memory', () => undefined],
])('a limit in %s', (_store, urlOf) => {
  it('lets so many through and no more, for each phone and each rule by itself', async () => {
    const { limits, end } = messageLimits(urlOf(), rules);
    const [phone, other] = [freshPhone(), freshPhone()];
    expect(await passed(limits.phone, phone, 5)).toEqual([false, false, false, true, true]);
    expect(await passed(limits.phone, other, 3)).toEqual([false, false, false]);
    expect(await passed(limits.stranger, phone, 2)).toEqual([false, true]);
    await end();
  });
});

describe('a limit', () => {
  it('is one for all processes that share a Redis', async () => {
    const [one, two] = [messageLimits(redis.url, rules), messageLimits(redis.url, rules)];
    const phone = freshPhone();
    expect(await passed(one.limits.phone, phone, 2)).toEqual([false, false]);
    expect(await passed(two.limits.phone, phone, 2)).toEqual([false, true]);
    await Promise.all([one.end(), two.end()]);
  });

  it.each([
    ['Redis', 'redis://127.0.0.1:1'],
    ['a Redis Cluster', 'redis://127.0.0.1:1,redis://127.0.0.1:2'],
  ])('counts for its own process while %s is away, and keeps nobody out for that', async (_store, urls) => {
    const { limits, end } = messageLimits(urls, rules);
    expect(await passed(limits.phone, freshPhone(), 4)).toEqual([false, false, false, true]);
    await end();
  });
});
