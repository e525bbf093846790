// The figures against a register made by hand, of which every number is known. Places and people are invented.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Entry } from '../../src/conversation/records.ts';
import type { Database } from '../../src/register/database.ts';
import { registerIn } from '../../src/register/register.ts';
import { type Figure, readFigures } from '../../src/register/report/figures.ts';
import { readNotDelivered } from '../../src/register/report/lost.ts';
import { fourWeeksWith, lastFourWeeks, periodOf } from '../../src/register/report/period.ts';
import { alert, babyNews, begun, due, examination, HOUR, nurse, ofBaby, referral, referralNews, text } from '../conformance/entries.ts';
import { openMigrated } from '../support/migrated-database.ts';

const minute = 60_000;
const day = 24 * HOUR;
/** A Monday there; the week before it is 2026-W17, in which the clocks of Egypt went forward. */
const monday = Date.parse('2026-04-27T00:00:00+03:00');
const noon = monday + 12 * HOUR;
const period = { from: '2026-04-20', until: '2026-05-03' };
const later = monday + 30 * day;
const of = (place: string) => ofBaby({ facility: place });

let database: Database;
let figures: readonly Figure[];
const record = (...entries: Entry[]): Promise<void> => registerIn(database).record(entries);
const figure = (name: string, facility: string | null = null, week: string | null = null): number | null | undefined =>
  figures.find((one) => one.name === name && one.facility === facility && one.week === week)?.value;

beforeAll(async () => {
  database = await openMigrated();
  for (const [id, zone, phone] of [
    ['hill', 'Africa/Cairo', '+201000000011'],
    ['river', 'Africa/Cairo', '+201000000012'],
  ])
    await database.query('insert into facilities (id, name, zone, phone, place) values ($1, $1, $2, $3, 0)', [id, zone, phone]);
  await database.query(
    `insert into people (phone, name, roles, facility, language, may_inject, place) values ($1, 'Invented Nurse', '{nurse}', 'hill', 'en', false, 0)`,
    [nurse],
  );

  // Six alerts at the hill, taken after so many minutes; one at the river that nobody took and whose examination never ended.
  const register = registerIn(database);
  for (const minutes of [10, 7, 4, 3, 2, 1]) {
    const baby = of('hill');
    const raised = alert({ ...baby, at: noon });
    const sent = referral({ ...baby, at: noon });
    await record(raised, sent, examination({ ...baby, at: noon + minute, urgency: 'urgent' }));
    await register.moveAlert(raised.key, 'open', 'taken', nurse, noon + minutes * minute, []);
    if (minutes > 3) await record(referralNews({ referral: sent.key, news: 'arrived', at: noon + 10 * minutes * minute }));
  }
  await record(alert({ ...of('river'), at: noon }));

  // One baby in the last minute of the week before, whose contact was done in time, one whose was late, one who died before.
  const contact = async (baby: ReturnType<typeof of>, at: number, doneAt: number | null): Promise<void> => {
    const first = examination({ ...baby, at, body: { interpretation: { missing: ['heart-rate', 'temperature'] } } });
    await record(
      first,
      due({ baby: baby.baby, work: 'contact', examination: first.key, body: { contact: '2', from: at + day, to: at + 2 * day } }),
    );
    if (doneAt !== null) await record(examination({ ...baby, at: doneAt, flow: 'postnatal-contact' }));
  };
  const sunday = monday - minute;
  await contact(of('river'), sunday, sunday + 2 * day);
  await contact(of('river'), noon, noon + 2 * day + 1);
  const died = of('river');
  await contact(died, noon, null);
  await record(babyNews({ baby: died.baby, news: 'died', at: noon + day }));

  await record(
    text({ to: nurse, text: 'x'.repeat(160), at: noon }),
    text({ to: nurse, text: 'x'.repeat(161), at: noon, urgent: true }),
    text({ to: '+201000000012', text: 'a', at: noon }),
    text({ to: '+201000000099', text: 'a', at: monday - 30 * day }),
  );
  await database.query(`update texts_out set state = 'sent'`);
  await database.query(`update texts_out set state = 'given-up', reason = 'http 500' where recipient = '+201000000012'`);
  figures = await readFigures(database, period, null, later);
});
afterAll(() => database.close());

describe('the figures', () => {
  it('count examinations by urgency and flow, with shares, over all, by facility, and by week', () => {
    expect(figure('examinations')).toBe(11);
    expect(figure('examinations', 'river')).toBe(5);
    expect(figure('examinations.urgency.urgent')).toBe(6);
    expect(figure('examinations.urgency.urgent.share')).toBe(0.545);
    expect(figure('examinations.urgency.urgent.share', 'hill')).toBe(1);
    expect(figure('examinations.flow.postnatal-contact')).toBe(2);
    expect(figure('babies.new', 'river')).toBe(4);
  });

  it("put the last minute of Sunday into the week before, by the facility's clock", () => {
    expect(figure('examinations', 'river', '2026-W17')).toBe(1);
    expect(figure('examinations', 'river', '2026-W18')).toBe(4);
  });

  // The six minutes and their median are the example of the NumPy manual, numpy.percentile (from memory); the 90th follows
  // from definition 7 of Hyndman and Fan: h = (6 - 1) * 0.9 + 1 = 5.5, half way from 7 to 10.
  it('give median and 90th percentile of the minutes until an alert was taken', () => {
    expect(figure('minutes.danger-to-taken.count')).toBe(6);
    expect(figure('minutes.danger-to-taken.median')).toBe(3.5);
    expect(figure('minutes.danger-to-taken.90th')).toBe(8.5);
  });

  it('and until the baby arrived, of those that did', () => {
    expect(figure('minutes.danger-to-arrival.count')).toBe(3);
    expect(figure('minutes.danger-to-arrival.median')).toBe(70);
  });

  it('have no minutes where nobody took an alert, rather than none at all', () => {
    expect(figure('minutes.danger-to-taken.count', 'river')).toBe(0);
    expect(figure('minutes.danger-to-taken.median', 'river')).toBeNull();
    expect(figure('alerts.not-taken', 'river')).toBe(1);
    expect(figure('alerts.examination-not-ended')).toBe(1);
  });

  it('count contacts whose time is over, done on time or not, without babies that died before', () => {
    expect(figure('contacts.due', 'river')).toBe(2);
    expect(figure('contacts.on-time', 'river')).toBe(1);
    expect(figure('contacts.on-time.share')).toBe(0.5);
  });

  it('leave out contacts whose time is not over yet, done or not', async () => {
    const early = await readFigures(database, period, 'river', noon + 2 * day - 1);
    const names = early.filter((one) => one.week === null && one.facility === 'river');
    expect(names.find(({ name }) => name === 'contacts.due')?.value).toBe(1);
  });

  it('say that there was none of what is always counted, where anything was', () => {
    expect(figure('reminders.missed', 'hill', '2026-W18')).toBe(0);
    expect(figure('alerts', 'river', '2026-W17')).toBe(0);
    expect(figure('contacts.on-time.share', 'hill')).toBeUndefined();
  });

  it('count examinations that were given up, by flow and step, of all that were begun', async () => {
    const [one, other, third] = [
      begun({ facility: 'hill', at: noon }),
      begun({ facility: 'hill', at: noon }),
      begun({ facility: 'hill', at: noon }),
    ];
    await record(one, other, third);
    await registerIn(database).settleBegun(one.key, { kind: 'given-up', step: 'danger' });
    await registerIn(database).settleBegun(other.key, { kind: 'given-up', step: null });
    const now = await readFigures(database, period, 'hill', later);
    const value = (name: string) => now.find((one) => one.name === name && one.facility === 'hill' && one.week === null)?.value;
    // Three begun and not ended, and six that ended with the message that began them.
    expect(value('examinations.begun')).toBe(9);
    expect(value('examinations.given-up')).toBe(2);
    expect(value('examinations.given-up.share')).toBe(0.222);
    expect(value('examinations.given-up.at.first-day-exam.danger')).toBe(1);
    expect(value('examinations.given-up.at.first-day-exam.not-known')).toBe(1);
    await database.query('delete from begun');
  });

  it('count what was not assessed, by finding', () => {
    expect(figure('not-assessed.heart-rate')).toBe(3);
  });

  it('count texts by state, and the segments of those that may have gone out', () => {
    expect(figure('texts.sent', 'hill')).toBe(2);
    expect(figure('texts.segments', 'hill')).toBe(3);
    expect(figure('texts.given-up', 'river')).toBe(1);
    expect(figure('texts.segments', 'river')).toBeUndefined();
  });

  it('of one facility are the same as its own among all', async () => {
    const own = (await readFigures(database, period, 'river', later)).filter(({ facility }) => facility === 'river');
    expect(own).toEqual(figures.filter(({ facility }) => facility === 'river'));
  });

  it('of a period in which nothing was are none', async () => {
    expect(await readFigures(database, { from: '2025-01-01', until: '2025-01-07' }, null, later)).toEqual([]);
  });
});

describe('of one baby', () => {
  beforeAll(async () => {
    await database.query(`insert into facilities (id, name, zone, phone, place) values ('lake', 'lake', 'UTC', '+201000000013', 0)`);
    const baby = of('lake');
    const body = { contact: '2', from: noon + 2 * day, to: noon + 3 * day };
    for (const at of [noon, noon + HOUR]) {
      const looked = examination({ ...baby, at });
      await record(looked, due({ baby: baby.baby, work: 'contact', examination: looked.key, body }));
    }
    const twice = of('lake');
    const register = registerIn(database);
    const first = alert({ ...twice, at: monday - 2 * day });
    await record(first);
    await register.moveAlert(first.key, 'open', 'taken', nurse, monday - 2 * day + minute, []);
    await register.moveAlert(first.key, 'taken', 'closed', nurse, monday - day, []);
    const sent = referral({ ...twice, at: noon });
    await record(alert({ ...twice, at: noon }), sent, referralNews({ referral: sent.key, news: 'arrived', at: noon + HOUR }));
    figures = await readFigures(database, period, 'lake', later);
  });

  it('a second look is not its next contact, which is planned anew and counts once', () => {
    expect(figure('contacts.due', 'lake')).toBe(1);
    expect(figure('contacts.on-time', 'lake')).toBe(0);
  });

  it('an arrival is of the last alert before it', () => {
    expect(figure('minutes.danger-to-arrival.count', 'lake')).toBe(1);
    expect(figure('minutes.danger-to-arrival.median', 'lake')).toBe(60);
  });
});

it('a text that reached nobody is listed with its reason, and not with its words', async () => {
  expect(await readNotDelivered(database, period, null, 10)).toEqual([
    { at: noon, facility: 'river', recipient: '+201000000012', urgent: false, state: 'given-up', attempts: 0, reason: 'http 500' },
  ]);
  expect(await readNotDelivered(database, period, 'river', 10)).toHaveLength(1);
  expect(await readNotDelivered(database, period, 'hill', 10)).toEqual([]);
  expect(await readNotDelivered(database, { from: '2026-04-28', until: '2026-05-03' }, null, 10)).toEqual([]);
});

describe('a period', () => {
  it('is four whole weeks where nothing is said', () => {
    expect(lastFourWeeks(Date.parse('2026-11-25T20:00Z'))).toEqual({ from: '2026-11-02', until: '2026-11-29' });
  });

  it('is four weeks from or until the one day that is given', () => {
    expect(fourWeeksWith('from', '2026-02-02')).toEqual({ from: '2026-02-02', until: '2026-03-01' });
    expect(fourWeeksWith('until', '2026-03-01')).toEqual({ from: '2026-02-02', until: '2026-03-01' });
    expect(fourWeeksWith('until', '2026-02-29')).toBeNull();
  });

  it.each([
    ['2026-02-29', '2026-03-01'],
    ['2026-03-02', '2026-03-01'],
    ['yesterday', '2026-03-01'],
    ['2026-3-1', '2026-03-02'],
  ])('from %s until %s is refused', (from, until) => {
    expect(periodOf(from, until)).toBeNull();
  });
});
