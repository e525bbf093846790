// What nurses and coordinators look at, from a register made by hand. Names and places are invented.

import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Entry } from '../../src/conversation/records.ts';
import type { Database } from '../../src/register/database.ts';
import { eraseBaby } from '../../src/register/erase.ts';
import { registerIn } from '../../src/register/register.ts';
import { watchIn } from '../../src/register/watch/watch.ts';
import {
  alert,
  asked,
  audit,
  babyNews,
  due,
  examination,
  HOUR,
  noon,
  nurse,
  ofBaby,
  otherNurse,
  referral,
  referralNews,
  text,
  worker,
} from '../conformance/entries.ts';
import { openMigrated } from '../support/migrated-database.ts';

const minute = 60_000;
let database: Database;

beforeAll(async () => {
  database = await openMigrated();
  for (const [id, zone, phone] of [
    ['lower-hill', 'Africa/Nairobi', '+254700000011'],
    ['upper-hill', 'Africa/Nairobi', '+254700000012'],
  ])
    await database.query('insert into facilities (id, name, zone, phone, place) values ($1, $1, $2, $3, 0)', [id, zone, phone]);
  await database.query(
    `insert into people (phone, name, roles, facility, language, may_inject, place) values ($1, 'Invented Nurse', '{nurse}', 'lower-hill', 'en', false, 0)`,
    [nurse],
  );
});
afterAll(() => database.close());
beforeEach(async () => {
  const tables = ['babies', 'examinations', 'alerts', 'alert_asks', 'alert_history', 'alert_news', 'referrals', 'referral_history'];
  const more = ['baby_history', 'due_work', 'texts_out', 'audit'];
  const deletions = [...tables, ...more].map((table) => `delete from ${table};`).join('');
  await database.script(`set session_replication_role = replica; ${deletions} set session_replication_role = origin;`);
});

const record = (...entries: Entry[]): Promise<void> => registerIn(database).record(entries);
const move = (...[key, from, to, by, at]: [string, 'open' | 'taken', 'taken' | 'closed', string, number]) =>
  registerIn(database).moveAlert(key, from, to, by, at, []);
const watch = () => watchIn(database);
const keys = (rows: readonly { readonly key: string }[]) => rows.map(({ key }) => key);

const convulsing = { id: 'convulsions', urgency: 'urgent', because: [{ finding: 'convulsions', value: true }] };
const cold = { id: 'cold', urgency: 'treat', because: [{ finding: 'temperature', value: 36.1, limit: '< 36.5' }], rows: ['TEMP-02'] };
const urgentBody = { case: {}, interpretation: { urgency: 'urgent', classifications: [convulsing, cold] }, version: 'v1' };

describe('open alerts', () => {
  it('come untaken first, oldest first, and closed ones not at all', async () => {
    const [taken, newer, older, closed] = [noon, noon + 2 * minute, noon + minute, noon].map((at) => alert({ ...ofBaby(), at }));
    await record(taken!, newer!, older!, closed!);
    await move(taken!.key, 'open', 'taken', nurse, noon + 3 * minute);
    await move(closed!.key, 'open', 'closed', nurse, noon + 3 * minute);
    const open = await watch().openAlerts(null, 10);
    expect(keys(open)).toEqual([older!.key, newer!.key, taken!.key]);
    expect(open[2]).toMatchObject({ state: 'taken', takenBy: nurse, takenAt: noon + 3 * minute, asksNextAt: null });
    expect(keys(await watch().openAlerts(null, 1))).toEqual([older!.key]);
  });

  it('say what is wrong, of which baby, who was asked when and why, and when the next is asked', async () => {
    const baby = ofBaby({ code: '7FK' });
    const raised = alert({ ...baby, at: noon, body: urgentBody });
    const facts = { sex: 'girl', bornAt: noon - HOUR, gestationDays: 273, birthWeightGrams: 3100, card: 'A7' } as const;
    await record(
      examination({ ...baby, facts, urgency: 'urgent' }),
      raised,
      asked({ alert: raised.key, step: 1, nurse: otherNurse, at: noon + 10 * minute }),
      due({ baby: baby.baby, work: 'alert-not-taken', alert: raised.key, dueAt: noon + 20 * minute }),
    );
    const { rows: _rows, ...coldFound } = cold;
    expect(await watch().openAlerts(null, 10)).toEqual([
      {
        key: raised.key,
        baby: { id: baby.baby, code: '7FK', facility: 'lower-hill', worker, status: 'followed', ...facts },
        code: '7FK',
        facility: 'lower-hill',
        worker,
        at: noon,
        state: 'open',
        takenBy: null,
        takenAt: null,
        closedBy: null,
        closedAt: null,
        found: [convulsing, coldFound],
        joinedAt: null,
        asked: [
          { nurse, why: 'raised', at: noon },
          { nurse: otherNurse, why: 'not-taken', at: noon + 10 * minute },
        ],
        asksNextAt: noon + 20 * minute,
      },
    ]);
  });

  it('show what joined them last', async () => {
    const baby = ofBaby();
    await record(alert({ ...baby, at: noon }));
    await record(alert({ ...baby, at: noon + minute, body: urgentBody }));
    expect(await watch().openAlerts(null, 10)).toMatchObject([{ joinedAt: noon + minute, found: [{ id: 'convulsions' }, { id: 'cold' }] }]);
  });

  it('are shown although their body has another shape or their baby no row', async () => {
    const odd = alert({ body: { interpretation: { classifications: 'none' } } });
    await record(odd);
    await database.script('delete from babies');
    expect(await watch().openAlerts(null, 10)).toMatchObject([
      { key: odd.key, found: [], baby: { id: odd.baby, code: odd.code, facility: odd.facility, worker, status: 'followed', sex: null } },
    ]);
  });

  it('are those of the facilities that somebody may see', async () => {
    const here = alert({ ...ofBaby({ facility: 'lower-hill' }) });
    await record(here, alert({ ...ofBaby({ facility: 'upper-hill' }) }));
    expect(keys(await watch().openAlerts(['lower-hill', 'nowhere'], 10))).toEqual([here.key]);
    expect(await watch().openAlerts([], 10)).toEqual([]);
    expect(await watch().openAlerts(['\0"; drop'], 10)).toEqual([]);
  });
});

describe('open referrals', () => {
  it('come urgent first, oldest first, with how far each has got', async () => {
    const refer = referral({ urgency: 'refer', at: noon - HOUR });
    const [first, second] = [referral({ at: noon, body: urgentBody }), referral({ at: noon + minute })];
    const closed = referral();
    await record(refer, second, first, closed, referralNews({ referral: closed.key, news: 'home-well' }));
    await record(referralNews({ referral: first.key, news: 'left', at: noon + 5 * minute }));
    const open = await watch().openReferrals(null, 10);
    expect(keys(open)).toEqual([first.key, second.key, refer.key]);
    expect(open[0]).toMatchObject({
      ...{ from: 'lower-hill', receiving: 'upper-hill', urgency: 'urgent', state: 'left', leftAt: noon + 5 * minute, arrivedAt: null },
      ...{ baby: { id: first.baby }, found: [{ id: 'convulsions' }, { id: 'cold' }] },
    });
  });

  it('are seen where the baby comes from and where it is sent', async () => {
    const one = referral();
    const unknown = referral({ receiving: null });
    await record(one, unknown);
    expect(keys(await watch().openReferrals(['upper-hill'], 10))).toEqual([one.key]);
    expect(await watch().openReferrals(['lower-hill'], 10)).toHaveLength(2);
    expect(await watch().openReferrals(['river'], 10)).toEqual([]);
  });
});

describe('closed lately', () => {
  it('come newest first with who closed them and what became of the baby, since the instant and none before', async () => {
    const [old, first, second] = [alert(), alert(), alert()];
    const sent = referral();
    await record(old, first, second, sent, referralNews({ referral: sent.key, news: 'died', at: noon + HOUR }));
    await move(old.key, 'open', 'closed', nurse, noon - 1);
    await move(first.key, 'open', 'closed', nurse, noon);
    await move(second.key, 'open', 'taken', otherNurse, noon);
    await move(second.key, 'taken', 'closed', nurse, noon + minute);
    const closed = await watch().closedLately(['lower-hill'], noon, 10);
    expect(keys(closed.alerts)).toEqual([second.key, first.key]);
    expect(closed.alerts[0]).toMatchObject({ takenBy: otherNurse, takenAt: noon, closedBy: nurse, closedAt: noon + minute });
    expect(closed.referrals).toMatchObject([{ key: sent.key, outcome: 'died', closedAt: noon + HOUR }]);
    expect(await watch().closedLately(null, noon, 1)).toMatchObject({ alerts: [{ key: second.key }] });
    expect(await watch().closedLately(['river'], noon, 10)).toEqual({ alerts: [], referrals: [] });
  });

  it('leave out what was of a baby that is erased', async () => {
    const baby = ofBaby();
    const [one, sent] = [alert(baby), referral(baby)];
    await record(one, sent, referralNews({ referral: sent.key, news: 'home-well' }));
    await move(one.key, 'open', 'closed', nurse, noon);
    await eraseBaby(database, baby.baby, 'a test', noon + HOUR);
    expect(await watch().closedLately(null, 0, 10)).toEqual({ alerts: [], referrals: [] });
  });
});

describe('babies by their code', () => {
  it('are found by its beginning in any case, followed or not, the one seen last first', async () => {
    const [one, died, other] = [ofBaby({ code: '7FK' }), ofBaby({ code: '7FA' }), ofBaby({ code: '8FK' })];
    await record(
      examination({ ...one, urgency: 'treat' }),
      examination({ ...died, at: noon + HOUR }),
      examination({ ...other }),
      alert(one),
      babyNews({ baby: died.baby, news: 'died' }),
    );
    const found = await watch().findBabiesBySearch(null, ' 7f', 10);
    expect(found.map(({ id }) => id)).toEqual([died.baby, one.baby]);
    expect(found).toMatchObject([
      { status: 'died', seenAt: noon + HOUR, hasOpenAlert: false },
      { status: 'followed', urgency: 'treat', hasOpenAlert: true, hasOpenReferral: false },
    ]);
    expect(await watch().findBabiesBySearch(null, '7f', 1)).toHaveLength(1);
    expect(await watch().findBabiesBySearch(['river'], '7F', 10)).toEqual([]);
  });

  it.each(['', '  ', '%', '_FK', '7\\', "7FK'", '\0', '٧FK'])('are not found by %j', async (typed) => {
    await record(examination(ofBaby({ code: '7FK' })));
    expect(await watch().findBabiesBySearch(null, typed, 10)).toEqual([]);
  });

  it('are not found once they are erased', async () => {
    const baby = ofBaby({ code: '7FK' });
    await record(examination(baby));
    await eraseBaby(database, baby.baby, 'a test', noon);
    expect(await watch().findBabiesBySearch(null, '7FK', 10)).toEqual([]);
    expect(await watch().babyCourse(baby.baby)).toBeNull();
  });
});

describe('texts that failed', () => {
  const days = { from: '2026-11-24', until: '2026-11-24' };

  it('are listed newest first with whom they were for, why, and who was told', async () => {
    const [lost, plain, fine] = [text({ urgent: true, at: noon }), text({ to: '+254700000012', at: noon + 1 }), text({ at: noon })];
    await record(lost, plain, fine);
    await database.query(`update texts_out set state = 'given-up', attempts = 4, reason = 'http 500' where key = $1`, [lost.key]);
    await database.query(`update texts_out set state = 'unknown' where key = $1`, [plain.key]);
    await registerIn(database).tellOfLost(noon + minute, 10, ({ key }) => [
      { kind: 'text', key: `lost:${key}:${otherNurse}`, to: otherNurse, text: 'Lost.', urgent: true, at: noon + minute + 5 },
    ]);
    expect(await watch().failedTexts(null, days, 10)).toEqual([
      {
        ...{
          key: plain.key,
          at: noon + 1,
          recipient: '+254700000012',
          facility: 'upper-hill',
          baby: null,
          urgent: false,
          state: 'unknown',
        },
        ...{ attempts: 0, reason: null, text: 'A text', told: [] },
      },
      {
        ...{ key: lost.key, at: noon, recipient: nurse, facility: 'lower-hill', baby: null, urgent: true, state: 'given-up' },
        ...{ attempts: 4, reason: 'http 500', text: 'A text', told: [otherNurse] },
      },
    ]);
    expect(keys(await watch().failedTexts(['upper-hill'], days, 10))).toEqual([plain.key]);
    expect(await watch().failedTexts(null, days, 1)).toHaveLength(1);
  });

  it('were told of to nobody where no coordinator is over the number', async () => {
    const lost = text({ urgent: true });
    await record(lost);
    await database.script(`update texts_out set state = 'undelivered'`);
    await registerIn(database).tellOfLost(noon + minute, 10, () => []);
    expect(await watch().failedTexts(null, days, 10)).toMatchObject([{ key: lost.key, told: [] }]);
  });

  it('have no words once their baby is erased', async () => {
    const baby = ofBaby();
    await record(examination(baby), text({ baby: baby.baby, urgent: true }));
    await eraseBaby(database, baby.baby, 'a test', noon);
    expect(await watch().failedTexts(null, days, 10)).toMatchObject([{ text: null, state: 'given-up', reason: 'erased', told: [] }]);
  });

  it("count on the day of their recipient's facility", async () => {
    // 22:30 in Greenwich is half past one of the next day at the hill; a number of nobody counts by Greenwich.
    const evening = Date.parse('2026-11-24T22:30Z');
    const [hill, nobody] = [text({ at: evening }), text({ at: evening, to: '+254700000099' })];
    await record(hill, nobody);
    await database.script(`update texts_out set state = 'unknown'`);
    expect(keys(await watch().failedTexts(null, days, 10))).toEqual([nobody.key]);
    expect(keys(await watch().failedTexts(null, { from: '2026-11-25', until: '2026-11-25' }, 10))).toEqual([hill.key]);
  });
});

describe('the audit trail', () => {
  it('comes newest first, page after page, with each line once', async () => {
    const lines = Array.from({ length: 7 }, (_, n) => audit({ at: noon + Math.floor(n / 3), body: { n } }));
    await record(...lines);
    const pages: string[] = [];
    for (let before: string | undefined; ; ) {
      const page = await watch().auditTrail({ limit: 2, ...(before === undefined ? {} : { before }) });
      if (page.length === 0) break;
      pages.push(...keys(page));
      before = page.at(-1)!.key;
    }
    const newestFirst = [...lines].sort((a, b) => b.at - a.at || (b.key < a.key ? -1 : 1));
    expect(pages).toEqual(newestFirst.map(({ key }) => key));
    expect(await watch().auditTrail({ limit: 1 })).toMatchObject([{ by: 'roster import', what: 'changed', about: worker, body: { n: 6 } }]);
    expect(await watch().auditTrail({ limit: 1, before: 'no such line' })).toEqual([]);
  });
});
