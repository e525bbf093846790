// Many processes at once on a few babies, in a PostgreSQL where transactions truly overlap: none ever waits for another that
// waits for it, so nothing fails. The seed is in the name of the test.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Register } from '../../src/conversation/ports.ts';
import type { DueWork, WorkAnswer } from '../../src/conversation/records.ts';
import type { Database } from '../../src/register/database.ts';
import { recordEntries } from '../../src/register/entries.ts';
import { eraseBaby } from '../../src/register/erase.ts';
import { migrate } from '../../src/register/migrate.ts';
import { openPostgres } from '../../src/register/postgres.ts';
import { registerIn } from '../../src/register/register.ts';
import { seededRandom } from '../support/end-to-end-seed.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { alert, asked, babyNews, due, examination, noon, nurse, ofBaby, otherNurse, referral, referralNews, text } from './entries.ts';

const seed = 20_261_125;
const [processes, turns, babies] = [8, 40, 4];

let server: PostgresServer;
let database: Database;
const registers: Register[] = [];

beforeAll(async () => {
  server = await startPostgresServer();
  for (let n = 0; n < processes; n += 1)
    registers.push(
      registerIn(
        openPostgres(server.url, { connections: 2, connectMilliseconds: 30_000, statementMilliseconds: 30_000, idleMilliseconds: 10_000 }),
      ),
    );
  database = openPostgres(server.url);
  await migrate(database);
});

afterAll(async () => {
  await Promise.all(registers.map((register) => register.end()));
  await database?.close();
  await server?.stop();
});

describe('processes that write of the same babies at once', () => {
  it(`never wait crosswise (seed ${seed})`, async () => {
    const random = seededRandom(seed);
    const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;
    const known = Array.from({ length: babies }, () => ofBaby());
    const sent = new Map(known.map((of) => [of.baby, referral(of)]));
    const faults: unknown[] = [];

    const answer = ({ baby, alert: open, referral: gone }: DueWork): WorkAnswer => ({
      entries: [
        text(),
        ...(open === null ? [] : [asked({ alert: open.key, step: open.asked.length, nurse: otherNurse })]),
        ...(gone === null ? [] : [referralNews({ referral: gone.key, news: 'not-left' })]),
        ...(baby === null ? [] : [due({ baby: baby.id, dueAt: noon + 1e9 })]),
      ],
      next: random() < 0.5 ? { kind: 'done' } : { kind: 'again', at: noon + 1 },
    });

    /** Another baby takes its place. */
    const leave = async (of: (typeof known)[number], news: 'moved' | 'died', register: Register): Promise<void> => {
      await register.record([babyNews({ baby: of.baby, news }), text()]);
      const next = ofBaby();
      known[known.indexOf(of)] = next;
      sent.set(next.baby, referral(next));
    };

    const act = async (register: Register): Promise<void> => {
      const of = pick(known);
      const open = await register.alertOf(of.baby);
      const advised = sent.get(of.baby) ?? referral(of);
      const about = random() < 0.5 || open === null ? { referral: advised.key } : { alert: open.key };
      await pick<() => Promise<unknown>>([
        () => register.record([examination(of), alert(of), due({ baby: of.baby, ...about }), text()]),
        () => register.record([examination(of), advised, due({ baby: of.baby })]),
        () =>
          register.record([
            referralNews({ referral: advised.key, news: pick(['left', 'arrived', 'not-left'] as const) }),
            due({ baby: of.baby }),
          ]),
        () => register.record([babyNews({ baby: of.baby, news: 'handed-over', to: pick([nurse, otherNurse]) })]),
        () => eraseBaby(database, of.baby, 'Invented Coordinator', noon),
        () => leave(of, pick(['moved', 'died'] as const), register),
        async () =>
          open &&
          register.moveAlert(open.key, open.state, pick(['open', 'taken', 'closed'] as const), nurse, noon, [
            text(),
            due({ baby: of.baby, alert: open.key }),
          ]),
        () => register.workDue(noon + 2, 3, answer, (_, error) => faults.push(error)),
        () => register.workDue(noon + 2, 3, answer, (_, error) => faults.push(error)),
      ])();
    };

    await Promise.all(
      registers.map(async (register) => {
        for (let turn = 0; turn < turns; turn += 1) await act(register).catch((error: unknown) => faults.push(error));
      }),
    );
    expect(faults).toEqual([]);
  });
});

/** Resolves once a transaction waits for the row of another. */
async function untilOneWaits(): Promise<void> {
  await expect
    .poll(async () => (await database.query(`select from pg_locks where not granted`)).length, { timeout: 30_000, interval: 5 })
    .toBeGreaterThan(0);
}

describe('a baby that is erased while something is written of it', () => {
  it('takes along what was being written', async () => {
    const of = ofBaby();
    const told = text({ baby: of.baby, text: 'told just now' });
    await registers[0]?.record([examination(of)]);
    const erased = await database.transaction(async (sql) => {
      await recordEntries(sql, [told]);
      const erasing = eraseBaby(database, of.baby, 'Invented Coordinator', noon + 1);
      await untilOneWaits();
      return { erasing };
    });
    expect(await erased.erasing).toBe('erased');
    expect(await database.query('select text, state from texts_out where key = $1', [told.key])).toEqual([{ text: '', state: 'given-up' }]);
  });

  it('is written of no more by one who waited for it', async () => {
    const of = ofBaby();
    const told = text({ baby: of.baby, text: 'told just now' });
    await registers[0]?.record([examination(of)]);
    const waited = await database.transaction(async (sql) => {
      await sql.query('select from babies where id = $1 for update', [of.baby]);
      const writing = registers[0]?.record([told]);
      await untilOneWaits();
      await sql.query(`update babies set status = 'erased', erased_at = $2 where id = $1`, [of.baby, noon + 1]);
      return { writing };
    });
    await waited.writing;
    expect(await database.query('select from texts_out where key = $1', [told.key])).toEqual([]);
  });
});
