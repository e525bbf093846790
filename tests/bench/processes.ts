// One server against two that share the stores: what a second process adds. Next: stage.ts, what they run on.

import { cpus } from 'node:os';
import type { Bench } from './bench.ts';
import type { Measured } from './load.ts';
import { spreadOf } from './spread.ts';
import { openStage, phones } from './stage.ts';

export async function measureProcesses({ isShort, rounds, print }: Bench): Promise<void> {
  // No phone may come to send more than the limit lets it within a minute.
  const stage = await openStage(isShort ? 1 : 3);
  const one = [await stage.startServer()];
  const two = [...one, await stage.startServer()];
  await stage.play('warm-up', two);
  const pairs: { readonly alone: Measured; readonly both: Measured }[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const name = `round${round}`;
    const aloneFirst = round % 2 === 0 ? await stage.play(`${name}one`, one) : null;
    const both = await stage.play(`${name}two`, two);
    pairs.push({ alone: aloneFirst ?? (await stage.play(`${name}one`, one)), both });
  }
  await stage.hasRecorded(2 * rounds + 1);
  await stage.end();
  const rate = ({ turns, seconds }: Measured): number => turns / seconds;
  print({
    bench: 'two-processes-to-one',
    unit: 'turns a second over those of one server',
    ...spreadOf(
      pairs.map(({ alone, both }) => rate(both) / rate(alone)),
      3,
    ),
    turnsASecond: spreadOf(
      pairs.map(({ both }) => rate(both)),
      0,
    ),
    ofOne: spreadOf(
      pairs.map(({ alone }) => rate(alone)),
      0,
    ),
    method: `POST /sms as in the webhook's line, ${phones} phones shared by two servers on one Redis and one PostgreSQL against all of them on one server, on ${cpus().length} cores that stores and phones use too; rounds alternate`,
  });
}
