// One server against two that share the stores: what a second process adds. Next: stage.ts, what they run on.

import { cpus } from 'node:os';
import type { Bench } from './bench.ts';
import { alternating, rate } from './rounds.ts';
import { spreadOf } from './spread.ts';
import { openStage, phones } from './stage.ts';

export async function measureProcesses({ isShort, rounds, print }: Bench): Promise<void> {
  // No phone may come to send more than the limit lets it within a minute.
  const stage = await openStage(isShort ? 1 : 3);
  const one = [await stage.startServer()];
  const two = [...one, await stage.startServer()];
  await stage.play('warm-up', two);
  const pairs = await alternating(
    rounds,
    (round) => stage.play(`round${round}one`, one),
    (round) => stage.play(`round${round}two`, two),
  );
  await stage.hasRecorded(2 * rounds + 1);
  await stage.end();
  print({
    bench: 'two-processes-to-one',
    unit: 'turns a second over those of one server',
    ...spreadOf(
      pairs.map(({ first, second }) => rate(second) / rate(first)),
      3,
    ),
    turnsASecond: spreadOf(
      pairs.map(({ second }) => rate(second)),
      0,
    ),
    ofOne: spreadOf(
      pairs.map(({ first }) => rate(first)),
      0,
    ),
    method: `POST /sms as in the webhook's line, ${phones} phones shared by two servers on one Redis and one PostgreSQL against all of them on one server, on ${cpus().length} cores that stores and phones use too; rounds alternate`,
  });
}
