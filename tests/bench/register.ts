// The register: examinations written a second, embedded and in PostgreSQL; texts sent a second by one process and by two; and whether what is
// due is found as fast among ten million rows as among ten thousand. Next: captured.ts, what is written; send-texts.ts, a sender.

import { fileURLToPath } from 'node:url';
import { openRegisterDatabase } from '../../src/cli/register-database.ts';
import type { Register, Waiting } from '../../src/conversation/ports.ts';
import type { Database } from '../../src/register/database.ts';
import { openPostgres, usualPoolLimits } from '../../src/register/postgres.ts';
import { registerIn } from '../../src/register/register.ts';
import { readSealingKeys } from '../../src/register/sealing/keys.ts';
import { startPostgresServer } from '../support/postgres-server.ts';
import { planNodes } from '../support/query-plans.ts';
import { startProcess } from '../support/started-process.ts';
import type { Bench } from './bench.ts';
import { entriesOfExaminations } from './captured.ts';
import { spreadOf } from './spread.ts';

const now = Date.UTC(2026, 0, 15, 9, 30);
const HOUR = 3_600_000;

export async function measureRegister(bench: Bench): Promise<void> {
  const postgres = await startPostgresServer();
  const read = readSealingKeys(`bench:${Buffer.alloc(32, 7).toString('base64')}`);
  if (read.kind === 'refused') throw new Error(read.why);
  const { keys } = read;
  const embedded = await openRegisterDatabase({ data: 'memory', keys });
  const database = await openRegisterDatabase({ databaseUrl: postgres.url, data: '', keys });
  await measureWriting(bench, 'embedded, in memory', registerIn(embedded), 1);
  await measureWriting(bench, 'PostgreSQL', registerIn(database), 8);
  await embedded.close();
  await measureSending(bench, database, postgres.url);
  await measureDue(bench, database, postgres.url);
  await database.close();
  await postgres.stop();
}

async function measureWriting({ isShort, rounds, print }: Bench, where: string, register: Register, atOnce: number): Promise<void> {
  const examinations = isShort ? 12 : 480;
  const perSecond: number[] = [];
  for (let round = 0; round <= rounds; round += 1) {
    const written = await entriesOfExaminations(examinations, now + round * HOUR);
    const began = performance.now();
    let next = 0;
    const write = async (): Promise<void> => {
      for (let entries = written[next++]; entries !== undefined; entries = written[next++])
        for (const batch of entries) await register.record(batch as Waiting[]);
    };
    await Promise.all(Array.from({ length: atOnce }, write));
    if (round > 0) perSecond.push((examinations * 1000) / (performance.now() - began));
  }
  print({
    bench: 'register-writes',
    where,
    unit: 'examinations/s',
    ...spreadOf(perSecond, 0),
    method: `all that the mix has recorded (that one was begun, its result, what falls due, 1 of 12 with an alert and its text), each in the transactions of its turns, ${atOnce} at once, names sealed, fsync off`,
  });
}

async function measureSending({ isShort, rounds, print }: Bench, database: Database, url: string): Promise<void> {
  const texts = isShort ? 40 : 4_000;
  const perSecond = new Map<number, number[]>([
    [1, []],
    [2, []],
  ]);
  for (let round = 0; round < rounds; round += 1) {
    for (const [processes, measured] of perSecond) {
      await database.query(
        `insert into texts_out (key, recipient, text, urgent, at, due_at)
           select 'bench:' || $1 || ':' || n, '+2547' || lpad(n::text, 8, '0'), 'A reminder of the bench', false, $2, $2 from generate_series(1, $3) n`,
        [`${round}-${processes}`, now, texts],
      );
      // A sender says what it sent when nothing is due any more; all wait for the same start.
      const senders = await Promise.all(
        Array.from({ length: processes }, () =>
          startProcess(process.execPath, ['--import', 'tsx', fileURLToPath(new URL('send-texts.ts', import.meta.url)), url], {
            sign: 'ready',
            remedy: 'Run npm install.',
          }),
        ),
      );
      const began = performance.now();
      for (const sender of senders) sender.signal('SIGUSR2');
      await Promise.all(senders.map(({ ended }) => ended));
      measured.push((texts * 1000) / (performance.now() - began));
    }
  }
  for (const [processes, measured] of perSecond)
    print({
      bench: 'due-texts',
      processes,
      unit: 'texts/s',
      ...spreadOf(measured, 0),
      method: `${texts} texts that are due in PostgreSQL, claimed, marked, given to a gateway that takes them at once, settled; from a signal until nothing is due`,
    });
}

async function measureDue({ isShort, rounds, print }: Bench, database: Database, url: string): Promise<void> {
  const sizes = isShort ? [100, 1_000] : [10_000, 10_000_000];
  const asks = isShort ? 20 : 400;
  const register = registerIn(database);
  const far = now + 1_000 * HOUR;
  const ask = (one: Register): Promise<number> =>
    one.workDue(
      now,
      10,
      () => ({ entries: [], next: { kind: 'done' } }),
      (_work, error) => {
        throw error;
      },
    );
  const times = sizes.map((): number[] => []);
  let rows = 0;
  // Ten million rows are not written in the time that a turn may wait.
  const filling = openPostgres(url, { ...usualPoolLimits, statementMilliseconds: 1_800_000 });
  await database.query('delete from due_work');
  for (const [at, size] of sizes.entries()) {
    await filling.query(
      `insert into due_work (key, work, baby, due_at, state, body)
         select 'bench:' || n, 'contact', 'bench-' || n, $1::bigint + n, 'pending', '{}' from generate_series($2::bigint, $3::bigint) n`,
      [far, rows + 1, size],
    );
    rows = size;
    await filling.query('analyze due_work');
    for (let round = 0; round < rounds; round += 1) {
      const took: number[] = [];
      for (let time = 0; time < asks; time += 1) {
        const began = performance.now();
        await ask(register);
        took.push((performance.now() - began) * 1000);
      }
      times[at]?.push(spreadOf(took, 1).median);
    }
  }
  await filling.close();
  const nodes = await planNodes(database, (noting) => ask(registerIn(noting)));
  const [few] = times.map((measured) => spreadOf(measured, 0).median);
  for (const [at, size] of sizes.entries())
    print({
      bench: 'due-scan',
      rows: size,
      unit: 'microseconds',
      ...spreadOf(times[at] ?? [], 0),
      overFewest: Number((spreadOf(times[at] ?? [], 0).median / (few ?? Number.NaN)).toFixed(3)),
      indexes: [...new Set(nodes.flatMap((node) => node['Index Name'] ?? []))],
      method: `asking PostgreSQL whether work is due, with so many pieces pending and none due; median of ${asks} in each round`,
    });
}
