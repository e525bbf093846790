// The webhook, signed, with real stores behind it, over a ceiling that does no work: in rounds that alternate, since bare figures swing with
// the machine. Next: stage.ts, what it runs on; ceiling.ts.

import type { Bench } from './bench.ts';
import type { Measured } from './load.ts';
import { alternating, rate } from './rounds.ts';
import { spreadOf } from './spread.ts';
import { openStage, phones } from './stage.ts';

interface Pair {
  readonly ours: Measured;
  readonly theirs: Measured;
}

export async function measureWebhook({ isShort, rounds, print }: Bench): Promise<void> {
  const stage = await openStage(isShort ? 1 : 6);
  const port = await stage.startServer();
  const sessionBytes = await stage.sessionBytes(port);
  print({
    bench: 'session-bytes',
    unit: 'bytes',
    median: sessionBytes,
    min: sessionBytes,
    max: sessionBytes,
    rounds: 1,
    method: 'STRLEN in Redis in the middle of a normal examination by SMS',
  });

  const ceiling = await stage.startCeiling(sessionBytes);
  await stage.play('warm-up', [port]);
  await stage.play('warm-up', [ceiling]);
  const measured = await alternating(
    rounds,
    (round) => stage.play(`round${round}`, [port]),
    (round) => stage.play(`round${round}`, [ceiling]),
  );
  const pairs = measured.map(({ first, second }): Pair => ({ ours: first, theirs: second }));
  printRates(pairs, stage.mix.length, print);

  const half = spreadOf(
    pairs.map(({ ours }) => rate(ours) / 2),
    0,
  ).median;
  const halves: Pair[] = [];
  const halfRounds = isShort ? 1 : 3;
  for (let round = 0; round < halfRounds; round += 1) {
    const ours = await stage.play(`half${round}`, [port], half);
    halves.push({ ours, theirs: await stage.play(`half${round}`, [ceiling], half) });
  }
  printHalfLoad(halves, half, print);
  await stage.hasRecorded(rounds + halfRounds + 1);
  await stage.end();
}

function printRates(pairs: readonly Pair[], examinations: number, print: Bench['print']): void {
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
    method: `POST /sms, signed, ${phones} kept-alive connections from a process of its own on loopback, Redis AOF everysec, PostgreSQL fsync off, ${examinations} whole examinations in turn (1 urgent, with its text out), ${pairs[0]?.ours.turns} turns a round, rounds alternate`,
  });
  print({
    bench: 'ceiling',
    unit: 'turns/s',
    ...spreadOf(
      pairs.map(({ theirs }) => rate(theirs)),
      0,
    ),
    method:
      'the same requests to Express and body-parser with the same four EVALSHA round trips (two limits, open, close) and a constant reply, no signature, no dialog, no register',
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
}

function printHalfLoad(halves: readonly Pair[], half: number, print: Bench['print']): void {
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
    method: `99th percentile of the webhook over that of the ceiling, both at ${half} texts a second, half of what the webhook answered at most, sent at even distances by phones that begin over the time of one examination, and timed from when each was to be sent`,
  });
}
