// How things stand, for whoever watches the server: counted over the real register.

import { beforeEach, describe, expect, it } from 'vitest';
import { standing } from '../../src/register/watch/standing.ts';
import { openMigrated } from '../support/migrated-database.ts';

type Database = Awaited<ReturnType<typeof openMigrated>>;
const noon = Date.UTC(2026, 10, 25, 12);
const minute = 60_000;

let database: Database;
beforeEach(async () => {
  database = await openMigrated();
});

const text = (key: string, at: number, state: string, urgent = false): Promise<unknown[]> =>
  database.query(
    `insert into texts_out (key, recipient, text, urgent, at, due_at, state, attempts) values ($1, '+254700555101', 'an invented text', $2, $3, $3, $4, 0)`,
    [key, urgent, at, state],
  );

describe('how things stand', () => {
  it('in an empty register is calm', async () => {
    expect(await standing(database, noon)).toEqual({
      ...{ alertsOpen: 0, alertOpenSince: null, alertsTaken: 0, textsDue: 0, textDueSince: null },
      ...{ urgentTextsLost: 0, workDueSince: null },
    });
  });

  it('counts texts that wait and urgent ones that reached nobody, and since when', async () => {
    await text('waits', noon - 3 * minute, 'due');
    await text('waits-longer', noon - 5 * minute, 'due');
    await text('sent', noon - 9 * minute, 'sent');
    await text('lost', noon - 20 * minute, 'given-up', true);
    await text('lost-plain', noon - 20 * minute, 'given-up');
    expect(await standing(database, noon)).toMatchObject({ textsDue: 2, textDueSince: noon - 5 * minute, urgentTextsLost: 1 });
  });

  it('counts alerts that nobody has taken, and since when', async () => {
    const alert = (key: string, at: number, state: string): Promise<unknown[]> =>
      database.query(
        `insert into alerts (key, worker, facility, nurse, code, at, state, taken_by, body)
          values ($1, '+254700555101', 'marula', '+254700555012', '7FK', $2, $3, case when $3 = 'open' then null else '+254700555012' end, '{}')`,
        [key, at, state],
      );
    await alert('open', noon - 4 * minute, 'open');
    await alert('taken', noon - 9 * minute, 'taken');
    await alert('closed', noon - 30 * minute, 'closed');
    expect(await standing(database, noon)).toMatchObject({ alertsOpen: 1, alertOpenSince: noon - 4 * minute, alertsTaken: 1 });
  });
});
