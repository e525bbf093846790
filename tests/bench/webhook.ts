// The webhook, signed, with real stores behind it, over a ceiling that does no work: in rounds that alternate, since bare figures swing with
// the machine. Next: load.ts, the phones, in a process of its own; ceiling.ts.

import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { Redis } from 'ioredis';
import { openPostgres } from '../../src/register/postgres.ts';
import { buildCommand } from '../support/end-to-end-build.ts';
import { startFakeGateway } from '../support/end-to-end-gateway.ts';
import { ACCOUNT, makeProgramme } from '../support/end-to-end-programme.ts';
import { freePort } from '../support/free-port.ts';
import { startPostgresServer } from '../support/postgres-server.ts';
import { startRedisServer } from '../support/redis-server.ts';
import { startProcess } from '../support/started-process.ts';
import type { Bench } from './bench.ts';
import type { Measured, Round } from './load.ts';
import { openMix } from './mix.ts';
import { spreadOf } from './spread.ts';

const phones = 32;
const publicUrl = 'https://pipit.example.org';
const token = 'an-invented-token';
const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

export async function measureWebhook({ isShort, rounds, print }: Bench): Promise<void> {
  const examinationsEach = isShort ? 1 : 6;
  const halfRounds = isShort ? 1 : 3;
  const { mix } = openMix();
  const programme = makeProgramme(phones + 1);
  const built = buildCommand();
  const [redis, postgres, gateway] = await Promise.all([startRedisServer(), startPostgresServer(), startFakeGateway(ACCOUNT, token)]);
  const client = new Redis(redis.url);
  await client.config('SET', 'appendfsync', 'everysec');
  await client.config('SET', 'appendonly', 'yes');
  const load: ChildProcess = fork(here('load.ts'), { execArgv: ['--import', 'tsx'] });
  const environment = {
    ...programme.environment,
    PATH: process.env.PATH ?? '',
    NODE_ENV: 'production',
    PUBLIC_URL: publicUrl,
    SMS_ACCOUNT: ACCOUNT,
    SMS_TOKEN: token,
    SMS_FROM: '+254700000999',
    SMS_API: gateway.url,
    REDIS_URL: redis.url,
    DATABASE_URL: postgres.url,
    PIPIT_SAME_TEXT_SECONDS: '0',
    PIPIT_KEYS: `bench:${Buffer.alloc(32, 7).toString('base64')}`,
    PIPIT_MESSAGES_A_MINUTE: '1000',
    PIPIT_MESSAGES_A_SECOND: '100000',
  };
  const profile = process.env.BENCH_PROFILE === undefined ? [] : ['--cpu-prof', `--cpu-prof-dir=${process.env.BENCH_PROFILE}`];
  const [port, ceilingPort] = [await freePort(), await freePort()];
  const start = (args: readonly string[], sign: string, env: NodeJS.ProcessEnv) =>
    startProcess(process.execPath, args, { env, sign, remedy: 'Run npm install.' });
  const server = await start([...profile, built.command, 'serve'], 'pipit is listening', { ...environment, PORT: String(port) });

  /** One round of the whole mix on every phone, each phone beginning at another place in it. */
  const play = async (name: string, onPort: number, perSecond?: number): Promise<Measured> => {
    const round: Round = {
      port: onPort,
      publicUrl,
      token,
      name,
      ...(perSecond === undefined ? {} : { perSecond }),
      phones: Array.from({ length: phones }, (_, number) => ({
        from: programme.worker(number),
        texts: Array.from({ length: examinationsEach }, (_none, at) => mix[(number + at) % mix.length] ?? []).flat(),
      })),
    };
    load.send(round);
    const [measured] = (await once(load, 'message')) as [Measured];
    if (measured.refused > 0)
      throw new Error(`${measured.refused} of ${measured.turns} texts were not answered with 200. Run the end-to-end tests first.`);
    return measured;
  };

  const halfway = programme.worker(phones);
  const [first = []] = mix;
  load.send({
    port,
    publicUrl,
    token,
    name: 'half',
    phones: [{ from: halfway, texts: first.slice(0, Math.ceil(first.length / 2)) }],
  } satisfies Round);
  await once(load, 'message');
  const sessionBytes = await client.strlen(`pipit:{${halfway}}:session`);
  print({
    bench: 'session-bytes',
    unit: 'bytes',
    median: sessionBytes,
    min: sessionBytes,
    max: sessionBytes,
    rounds: 1,
    method: 'STRLEN in Redis in the middle of a normal examination by SMS',
  });

  const ceiling = await start(
    ['--import', 'tsx', here('ceiling.ts'), redis.url, String(ceilingPort), String(sessionBytes)],
    'ceiling is listening',
    { ...process.env, NODE_ENV: 'production' },
  );
  await play('warm-up', port);
  await play('warm-up', ceilingPort);
  const pairs: { readonly ours: Measured; readonly theirs: Measured }[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const name = `round${round}`;
    const oursFirst = round % 2 === 0 ? await play(name, port) : null;
    const theirs = await play(name, ceilingPort);
    pairs.push({ ours: oursFirst ?? (await play(name, port)), theirs });
  }
  const rate = ({ turns, seconds }: Measured): number => turns / seconds;
  const half = spreadOf(
    pairs.map(({ ours }) => rate(ours) / 2),
    0,
  ).median;
  const halves: { readonly ours: Measured; readonly theirs: Measured }[] = [];
  for (let round = 0; round < halfRounds; round += 1)
    halves.push({ ours: await play(`half${round}`, port, half), theirs: await play(`half${round}`, ceilingPort, half) });
  // What was measured must have been the work: every examination is in the register, once.
  const register = openPostgres(postgres.url);
  const [counted] = await register.query<{ examinations: number }>('select count(*) as examinations from examinations');
  await register.close();
  const played = (rounds + halfRounds + 1) * phones * examinationsEach;
  if (counted?.examinations !== played)
    throw new Error(`${played} examinations were played and ${counted?.examinations} are in the register. Run the end-to-end tests first.`);

  const method = `POST /sms, signed, ${phones} kept-alive connections from a process of its own on loopback, Redis AOF everysec, PostgreSQL fsync off, ${mix.length} whole examinations in turn (1 urgent, with its text out), ${pairs[0]?.ours.turns} turns a round, rounds alternate`;
  print({
    bench: 'webhook',
    unit: 'turns/s',
    ...spreadOf(
      pairs.map(({ ours }) => rate(ours)),
      0,
    ),
    p50Milliseconds: spreadOf(
      pairs.map(({ ours }) => ours.p50Milliseconds),
      1,
    ),
    p99Milliseconds: spreadOf(
      pairs.map(({ ours }) => ours.p99Milliseconds),
      1,
    ),
    method,
  });
  print({
    bench: 'ceiling',
    unit: 'turns/s',
    ...spreadOf(
      pairs.map(({ theirs }) => rate(theirs)),
      0,
    ),
    method:
      'the same requests to Express and body-parser with two EVALSHA round trips and a constant reply, no signature, no dialog, no register',
  });
  print({
    bench: 'webhook-to-ceiling',
    unit: 'ratio',
    ...spreadOf(
      pairs.map(({ ours, theirs }) => rate(ours) / rate(theirs)),
      3,
    ),
    method: 'webhook over ceiling within each round',
  });
  print({
    bench: 'p99-at-half-load',
    unit: 'ratio',
    ...spreadOf(
      halves.map(({ ours, theirs }) => ours.p99Milliseconds / theirs.p99Milliseconds),
      2,
    ),
    p99Milliseconds: spreadOf(
      halves.map(({ ours }) => ours.p99Milliseconds),
      1,
    ),
    ceilingsMilliseconds: spreadOf(
      halves.map(({ theirs }) => theirs.p99Milliseconds),
      1,
    ),
    method: `99th percentile of the webhook over that of the ceiling, both at ${half} texts a second, half of what the webhook answered at most, sent at even distances and timed from when each was to be sent`,
  });

  load.disconnect();
  client.disconnect();
  await Promise.all([server.end('SIGTERM'), ceiling.end('SIGTERM')]);
  await Promise.all([redis.stop(), postgres.stop(), gateway.close()]);
  programme.remove();
  built.remove();
}
