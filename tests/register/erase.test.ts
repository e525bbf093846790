// A baby that is erased is in no table any more: what was planted of it in every field is searched for in all of them. Counts
// stay. What was said before and comes later is not written, unless it is an alert that nobody has seen; what is said later is a
// new record. Names and places are invented.

import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { textReference } from '../../src/conversation/text-reference.ts';
import type { Database } from '../../src/register/database.ts';
import { eraseBaby, findByCode, findById, findSeenBefore } from '../../src/register/erase.ts';
import { readMonth } from '../../src/register/export/read-month.ts';
import { registerIn } from '../../src/register/register.ts';
import { readFigures } from '../../src/register/report/figures.ts';
import {
  alert,
  babyNews,
  due,
  examination,
  HOUR,
  noon,
  nurse,
  ofBaby,
  referral,
  referralNews,
  text,
  worker,
} from '../conformance/entries.ts';
import { openMigrated } from '../support/migrated-database.ts';

let database: Database;
beforeAll(async () => {
  database = await openMigrated();
});
afterAll(() => database.close());

const record = (...entries: Parameters<ReturnType<typeof registerIn>['record']>[0]) => registerIn(database).record(entries);
const planted = 'PLANTED';

async function everything(): Promise<string> {
  const tables = await database.query<{ name: string }>(
    `select tablename as name from pg_tables where schemaname = 'public' order by tablename`,
  );
  const rows = await Promise.all(
    tables.map(({ name }) => database.query<{ rows: unknown }>(`select coalesce(jsonb_agg(to_jsonb(t)), '[]') as rows from ${name} as t`)),
  );
  return JSON.stringify(rows);
}

/** A baby with the mark in every place that holds something of it; its alert and referral are closed unless told otherwise. */
async function seen(facility: string, isOpen = false) {
  const baby = ofBaby({ facility, code: `${planted}-CODE` });
  const body = { found: planted, interpretation: { missing: ['temperature'], planted } };
  const facts = { sex: 'girl', bornAt: noon - HOUR, gestationDays: 273, birthWeightGrams: 3100, card: planted } as const;
  const examined = examination({ ...baby, body, facts, urgency: 'urgent' });
  const raised = alert({ ...baby, body });
  const sent = referral({ ...baby, body });
  await record(
    ...[examined, raised, sent],
    alert({ ...baby, body, at: noon + 1 }),
    due({ baby: baby.baby, work: 'contact', examination: examined.key, body: { from: noon, to: noon, planted } }),
    due({ baby: baby.baby, body: planted }),
    { ...text({ key: `to:${facility}:${baby.baby}`, to: `phone-of-${facility}`, text: planted.repeat(30) }), gatewayId: 'SM1' },
    text({ key: `nurse:alert:${baby.baby}:0`, text: planted }),
    text({ baby: baby.baby, text: planted, urgent: true }),
  );
  if (!isOpen) {
    await registerIn(database).moveAlert(raised.key, 'open', 'taken', nurse, noon + HOUR, []);
    await registerIn(database).moveAlert(raised.key, 'taken', 'closed', nurse, noon + 2 * HOUR, []);
    await record(referralNews({ referral: sent.key, news: 'home-well', at: noon + 3 * HOUR }));
  }
  return { ...baby, examined, raised };
}

const period = { from: '2026-11-23', until: '2026-11-29' };
const counts = async (facility: string) =>
  (await readFigures(database, period, null, noon + 99 * HOUR))
    .filter((one) => one.facility === facility)
    .map(({ name, week, value }) => [name, week, value]);

describe('a baby that is erased', () => {
  beforeEach(async () => {
    await database.script(`set session_replication_role = replica;
      delete from texts_out; delete from due_work; delete from alert_news; delete from alerts; delete from referrals;
      delete from examinations; delete from babies; set session_replication_role = origin;`);
  });

  it('is in no table, and was there before', async () => {
    const baby = await seen('valley');
    expect(await everything()).toContain(planted);
    expect(await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR)).toBe('erased');
    expect(await everything()).not.toContain(planted);
    const [row] = await database.query('select sex, born_at, gestation_days, birth_weight_grams, card, status from babies');
    expect(row).toEqual({ sex: null, born_at: null, gestation_days: null, birth_weight_grams: null, card: null, status: 'erased' });
  });

  it('is counted as before', async () => {
    await database.query(
      `insert into facilities (id, name, zone, phone, place) values ('counted', 'Invented', 'UTC', 'phone-of-counted', 1)
         on conflict do nothing`,
    );
    const baby = await seen('counted');
    await database.query(`update due_work set state = 'missed', due_at = $1 where work <> 'contact'`, [noon]);
    const before = await counts('counted');
    expect(before).toContainEqual(['examinations.urgency.urgent', null, 1]);
    expect(before).toContainEqual(['minutes.danger-to-taken.median', null, 60]);
    for (const [name, value] of [
      ['contacts.due', 1],
      ['not-assessed.temperature', 1],
      ['reminders.missed', 1],
      ['texts.segments', 2],
    ])
      expect(before).toContainEqual([name, null, value]);
    await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR);
    expect(await counts('counted')).toEqual(before);
  });

  it('stands in the export of its month without anything of its own', async () => {
    const baby = await seen('valley');
    await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR);
    const month = await readMonth(database, 'valley', { from: noon - HOUR, until: noon + HOUR });
    expect(month.examinations).toMatchObject([{ code: null, urgency: 'urgent', found: null }]);
    expect(JSON.stringify(month)).not.toContain(planted);
  });

  it('has nothing due and no text that waits', async () => {
    const baby = await seen('valley');
    await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR);
    expect(await database.query(`select from due_work where state in ('pending', 'missed')`)).toEqual([]);
    expect(await registerIn(database).claimTexts(noon + 9 * HOUR, 10, HOUR)).toEqual([]);
    expect(await registerIn(database).tellOfLost(noon + 9 * HOUR, 10, () => [])).toBe(0);
  });

  it('is written about no more by what was said before and comes later', async () => {
    const baby = await seen('valley');
    await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR);
    await record(
      examination({ ...baby, at: noon + 5, body: { found: planted } }),
      { ...baby.raised, body: planted },
      referral({ ...baby, at: noon + 5, body: planted }),
      due({ baby: baby.baby, body: planted }),
      due({ baby: baby.baby, alert: baby.raised.key, body: planted }),
      text({ baby: baby.baby, text: planted }),
      text({ baby: baby.baby, text: planted, urgent: true }),
      babyNews({ baby: baby.baby, news: 'died' }),
    );
    expect(await everything()).not.toContain(planted);
    expect(await database.query(`select status from babies`)).toEqual([{ status: 'erased' }]);
  });

  it.each([
    ['before', -1],
    ['after', 1],
  ])('comes back with an alert that was raised %s and that nobody has seen, so that somebody is asked', async (_when, later) => {
    const baby = await seen('valley');
    const erasedAt = noon + 3 * HOUR;
    await eraseBaby(database, baby.baby, 'Invented Coordinator', erasedAt);
    const { record: write, alertOf, claimTexts, workDue, findBabies } = registerIn(database);
    const at = erasedAt + later;
    const raised = alert({ ...baby, code: '7FK', at });
    await write([
      raised,
      due({ baby: baby.baby, work: 'alert-not-taken', alert: raised.key, dueAt: at, at }),
      text({ baby: baby.baby, urgent: true, text: '7FK URGENT', at }),
    ]);
    expect(await alertOf(baby.baby)).toMatchObject({ key: raised.key, state: 'open', code: '7FK' });
    expect(await claimTexts(at, 10, HOUR)).toMatchObject([{ text: '7FK URGENT' }]);
    const asked: unknown[] = [];
    const answer: Parameters<typeof workDue>[2] = ({ work }) => {
      asked.push(work);
      return { entries: [], next: { kind: 'done' } };
    };
    await workDue(at, 10, answer, () => {});
    expect(asked).toEqual(['alert-not-taken']);
    expect(await findBabies('valley', 'nobody', '7FK')).toMatchObject([{ id: baby.baby, status: 'followed' }]);
    expect(JSON.stringify(await findBabies('valley', 'nobody', '7FK'))).not.toContain(planted);
  });

  it('that is examined again later is followed by what was said then, and can be erased again', async () => {
    const baby = await seen('valley');
    await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + 3 * HOUR);
    const at = noon + 4 * HOUR;
    const facts = { sex: 'girl', bornAt: noon, gestationDays: null, birthWeightGrams: 3000, card: null } as const;
    const again = examination({ ...baby, code: '7FK', at, facts });
    await record(again, due({ baby: baby.baby, examination: again.key, dueAt: at, at }), text({ baby: baby.baby, text: 'Look again', at }));
    const [row] = await registerIn(database).findBabies('valley', 'nobody', '7FK');
    expect(row).toMatchObject({ id: baby.baby, birthWeightGrams: 3000, card: null, due: [{ dueAt: at }] });
    expect(await registerIn(database).claimTexts(at, 10, HOUR)).toMatchObject([{ text: 'Look again' }]);
    expect(await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + 5 * HOUR)).toBe('erased');
    expect(await registerIn(database).findBabies('valley', 'nobody', '7FK')).toEqual([]);
    expect(await everything()).not.toContain('Look again');
  });

  it.each([
    ['failed', { kind: 'failed', reason: 'no route' }],
    ['unknown', { kind: 'unknown' }],
  ] as const)('does not go out without words when its text was under way and is %s', async (_name, outcome) => {
    const baby = await seen('valley');
    const texts = await registerIn(database).claimTexts(noon + HOUR, 10, HOUR);
    expect(texts.length).toBeGreaterThan(1);
    await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR);
    for (const { key } of texts) await registerIn(database).settleText(key, outcome, noon + HOUR);
    expect(await registerIn(database).claimTexts(noon + 99 * HOUR, 10, HOUR)).toEqual([]);
    expect(await registerIn(database).tellOfLost(noon + 99 * HOUR, 10, () => [])).toBe(0);
  });

  it('does not go out without words when its text is reported not delivered later', async () => {
    const baby = await seen('valley');
    const texts = await registerIn(database).claimTexts(noon + HOUR, 10, HOUR);
    for (const { key } of texts) await registerIn(database).settleText(key, { kind: 'sent', gatewayId: key }, noon + HOUR);
    await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR);
    for (const { key } of texts) {
      const report = { kind: 'failed', reason: 'absent', gatewayId: key } as const;
      await registerIn(database).reportText(textReference(key), report, noon + 2 * HOUR);
    }
    expect(await registerIn(database).claimTexts(noon + 99 * HOUR, 10, HOUR)).toEqual([]);
  });

  it('leaves others as they are', async () => {
    const [baby, other] = [await seen('valley'), await seen('valley')];
    await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR);
    expect(await findById(database, other.baby)).toHaveLength(1);
    const kept = await database.query(`select from texts_out where text = $1`, [planted]);
    expect(kept).toHaveLength(2);
  });

  it('is in the audit trail once, by who asked and where, and by no name of its own', async () => {
    const baby = await seen('audited');
    expect(await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR)).toBe('erased');
    expect(await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + 2 * HOUR)).toBe('unknown');
    const lines = await database.query<{ about: string }>(
      `select by, what, about, at, body from audit where body ->> 'facility' = 'audited'`,
    );
    expect(lines).toMatchObject([{ by: 'Invented Coordinator', what: 'baby-erased', at: noon + HOUR, body: { facility: 'audited' } }]);
    expect(lines[0]?.about).toMatch(/^[0-9a-f]{64}$/);
  });

  it.each(['alert', 'referral'])('is not, while its %s is open: somebody is to help it', async (what) => {
    const baby = await seen('valley', true);
    await database.query(`update ${what === 'alert' ? 'referrals' : 'alerts'} set state = 'closed'`);
    expect(await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR)).toBe('open');
    expect(await everything()).toContain(planted);
    expect(await findSeenBefore(database, noon + HOUR, 10)).toEqual([]);
  });

  it('is found by its code and facility, also when it died, and not once it is erased', async () => {
    const baby = await seen('valley');
    await record(babyNews({ baby: baby.baby, news: 'died', by: worker, at: noon + 4 * HOUR }));
    expect(await findByCode(database, 'valley', baby.code)).toMatchObject([{ id: baby.baby, status: 'died' }]);
    expect(await findByCode(database, 'elsewhere', baby.code)).toEqual([]);
    await eraseBaby(database, baby.baby, 'Invented Coordinator', noon + HOUR);
    expect(await findByCode(database, 'valley', baby.code)).toEqual([]);
  });

  it('is found by its age: seen last before, and only then', async () => {
    const baby = await seen('valley');
    expect(await findSeenBefore(database, noon, 10)).toEqual([]);
    expect((await findSeenBefore(database, noon + 1, 10)).map(({ id }) => id)).toEqual([baby.baby]);
  });

  it('that nobody knows is unknown', async () => {
    expect(await eraseBaby(database, 'nobody', 'Invented Coordinator', noon)).toBe('unknown');
  });
});
