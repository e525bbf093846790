// A register that was in use before babies had rows of their own keeps all that it held, and goes on with it.

import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { migrate, migrationNames } from '../../src/register/migrate.ts';
import { openEmbedded } from '../../src/register/pglite.ts';
import { registerIn } from '../../src/register/register.ts';

const folder = new URL('../../src/register/migrations/', import.meta.url);
const baby = '+254700000001-sms-7';

it('a register of before keeps its examinations and alerts, and its babies are followed from then on', async () => {
  const database = await openEmbedded('memory');
  await database.script('create table migrations (name text primary key, applied_at timestamptz not null default now())');
  for (const name of migrationNames().slice(0, 2)) {
    await database.script(readFileSync(new URL(name, folder), 'utf8'));
    await database.query('insert into migrations (name) values ($1)', [name]);
  }
  const examined = `insert into examinations (key, worker, facility, code, at, body) values ($1, '+254700000001', 'lower-hill', '7FK', $2, $3)`;
  const body = { case: {}, interpretation: { urgency: 'refer' }, version: 'v0' };
  await database.query(examined, [`examination:${baby}:0`, 5, body]);
  await database.query(examined, [`examination:${baby}:1`, 9, body]);
  await database.script(`
    insert into alerts (key, worker, facility, nurse, code, at, body)
      values ('alert:${baby}', '+254700000001', 'lower-hill', '+254700000002', '7FK', 4, '{}');
    insert into alert_history (alert, move, state_to, by, at) values ('alert:${baby}', 0, 'open', '+254700000001', 4);
  `);

  expect(await migrate(database)).toEqual(migrationNames().slice(2));
  expect(await migrate(database)).toEqual([]);

  const register = registerIn(database);
  expect(await register.findBabies('lower-hill', 'nobody', '7FK')).toMatchObject([
    { id: baby, worker: '+254700000001', last: { key: `examination:${baby}:1`, at: 9, urgency: 'refer', body } },
  ]);
  expect(await register.alertOf(baby)).toMatchObject({ key: `alert:${baby}`, baby, asked: ['+254700000002'], state: 'open' });
  expect(await register.moveAlert(`alert:${baby}`, 'open', 'taken', '+254700000002', 10, [])).toMatchObject({ state: 'taken' });
  await database.close();
});
