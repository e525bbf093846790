// What a turn asks of Redis, open and close, where few sessions lie and where a million do, and in a Redis Cluster: as ratios within rounds
// that alternate. Bytes of a session: webhook.ts, and `npm run storage`. Next: run.ts.

import { Redis } from 'ioredis';
import type { Sessions } from '../../src/conversation/ports.ts';
import { writeSession } from '../../src/conversation/stored-session.ts';
import { newSession, type Session } from '../../src/dialog/session.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { redisSessions, sessionKeys } from '../../src/sessions/redis.ts';
import { startRedisCluster } from '../support/redis-cluster.ts';
import { type RedisServer, startRedisServer } from '../support/redis-server.ts';
import type { Bench } from './bench.ts';
import { openMix } from './mix.ts';
import { spreadOf } from './spread.ts';
import { usedBytes } from './storage/measure-redis.ts';

const monthMilliseconds = 30 * 24 * 3_600_000;
const phoneOf = (number: number): string => `+2547${String(number).padStart(8, '0')}`;

export async function measureSessions({ isShort, rounds, print }: Bench): Promise<void> {
  const sizes = isShort ? [100, 1_000] : [1_000, 100_000, 1_000_000];
  const turns = isShort ? 50 : 3_000;
  const text = sessionUnderWay();
  print({
    bench: 'session-text',
    unit: 'bytes',
    median: Buffer.byteLength(text),
    rounds: 1,
    method: 'a session in the middle of a normal examination by SMS, as it is stored',
  });

  const servers = await Promise.all(sizes.map(() => startRedisServer()));
  const held = await Promise.all(servers.map((server, at) => fill(server, sizes[at] ?? 0, text)));
  const times = sizes.map((): number[] => []);
  const ratios = sizes.map((): number[] => []);
  for (let round = 0; round <= rounds; round += 1) {
    const took: number[] = [];
    for (const [at, sessions] of held.entries()) took.push(await medianMicroseconds(sessions, sizes[at] ?? 1, text, turns, `${round}`));
    // The first round is a warm-up.
    if (round === 0) continue;
    for (const [at, microseconds] of took.entries()) {
      times[at]?.push(microseconds);
      ratios[at]?.push(microseconds / (took[0] ?? Number.NaN));
    }
  }
  for (const [at, size] of sizes.entries()) {
    print({
      bench: 'sessions-held',
      sessions: size,
      unit: `time over that at ${sizes[0]}`,
      ...spreadOf(ratios[at] ?? [], 3),
      microseconds: spreadOf(times[at] ?? [], 0),
      usedMegabytes: await usedMegabytes(servers[at]),
      method: `median of ${turns} pairs of open and close, one after another, each of a phone drawn from those held; rounds alternate`,
    });
  }
  for (const sessions of held) await sessions.end();
  await Promise.all(servers.map((server) => server.stop()));
  await measureCluster({ isShort, rounds, print }, text);
}

/** The same pairs at once from many phones, over three nodes and over one server. */
async function measureCluster({ isShort, rounds, print }: Bench, text: string): Promise<void> {
  const phones = 32;
  const each = isShort ? 5 : 300;
  const [single, cluster] = await Promise.all([startRedisServer(), startRedisCluster()]);
  const one = redisSessions({ url: single.url });
  const three = redisSessions({ url: cluster.urls });
  const perSecond = async (sessions: Sessions, name: string): Promise<number> => {
    const began = performance.now();
    await Promise.all(
      Array.from({ length: phones }, async (_, phone) => {
        for (let turn = 0; turn < each; turn += 1) await openAndClose(sessions, phoneOf(phone), `${name}-${turn}`, text);
      }),
    );
    return (phones * each * 1000) / (performance.now() - began);
  };
  const ratios: number[] = [];
  for (let round = 0; round <= rounds; round += 1) {
    const [alone, spread] = [await perSecond(one, `${round}`), await perSecond(three, `${round}`)];
    if (round > 0) ratios.push(spread / alone);
  }
  print({
    bench: 'cluster-to-single',
    unit: 'pairs a second over those of one server',
    ...spreadOf(ratios, 3),
    method: `open and close from ${phones} phones at once in one process, a Redis Cluster of three nodes on this machine against one server; ${phones * each} pairs a round`,
  });
  await Promise.all([one.end(), three.end()]);
  await Promise.all([single.stop(), cluster.stop()]);
}

function sessionUnderWay(): string {
  const { mix, book, worker } = openMix();
  const [texts = []] = mix;
  let session: Session = newSession;
  for (const said of texts.slice(0, Math.ceil(texts.length / 2)))
    session = takeTurn(session, { text: said, caller: worker, dialled: false }, book, Date.now()).session;
  return writeSession(session);
}

async function fill(server: RedisServer, count: number, text: string): Promise<Sessions> {
  const client = new Redis(server.url);
  const batch = 5_000;
  for (let from = 0; from < count; from += batch) {
    const pipeline = client.pipeline();
    for (let number = from; number < Math.min(count, from + batch); number += 1)
      pipeline.set(sessionKeys('pipit', phoneOf(number), '').session, text, 'PX', monthMilliseconds);
    await pipeline.exec();
  }
  client.disconnect();
  return redisSessions({ url: server.url });
}

async function openAndClose(sessions: Sessions, phone: string, id: string, text: string): Promise<void> {
  const opened = await sessions.open(phone, id, 0);
  if (opened.kind !== 'held') throw new Error(`A session could not be opened: ${opened.kind}. Run the conformance tests first.`);
  await sessions.close(opened.held, id, text, 'reply', 0);
}

async function medianMicroseconds(sessions: Sessions, among: number, text: string, turns: number, name: string): Promise<number> {
  const times: number[] = [];
  for (let turn = 0; turn < turns; turn += 1) {
    // A step that shares no factor with the counts, so that phones are far from one another.
    const phone = phoneOf((turn * 7_919) % among);
    const began = performance.now();
    await openAndClose(sessions, phone, `${name}-${turn}`, text);
    times.push((performance.now() - began) * 1000);
  }
  return spreadOf(times, 1).median;
}

async function usedMegabytes(server: RedisServer | undefined): Promise<number> {
  const client = new Redis(server?.url ?? '');
  const bytes = await usedBytes(client);
  client.disconnect();
  return Math.round(bytes / 1024 / 1024);
}
