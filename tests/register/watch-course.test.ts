// One baby's course: each reading once, at the time of the look in which it was read, whatever was corrected or looked at again.
// Then figures as series by week. Names and places are invented.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Entry } from '../../src/conversation/records.ts';
import type { Answer } from '../../src/dialog/session.ts';
import type { Database } from '../../src/register/database.ts';
import { registerIn } from '../../src/register/register.ts';
import { seriesOf } from '../../src/register/watch/figure-series.ts';
import { readingsOfLook, timedReadings } from '../../src/register/watch/look-readings.ts';
import { watchIn } from '../../src/register/watch/watch.ts';
import { alert, babyNews, due, examination, HOUR, noon, nurse, ofBaby, referral, referralNews, worker } from '../conformance/entries.ts';
import { openMigrated } from '../support/migrated-database.ts';

let database: Database;
beforeAll(async () => {
  database = await openMigrated();
});
afterAll(() => database.close());

const record = (...entries: Entry[]): Promise<void> => registerIn(database).record(entries);

type Values = NonNullable<Answer['values']>;
const answer = (values: Values, look = 0, message = 1): Answer => ({
  step: 'vital-signs',
  seal: 's',
  message,
  values,
  ...(look > 0 ? { look } : {}),
});
const bodyOf = (answers: readonly Answer[], earlier: readonly string[] = []) => ({
  examination: { answers, earlier },
  case: { gestation: { weeks: 34 } },
  interpretation: { classifications: [{ id: 'cold', urgency: 'treat', because: [] }], missing: ['heart-rate'] },
});

describe("a baby's course", () => {
  it('holds every examination, and each reading once', async () => {
    const baby = ofBaby({ code: '7FK' });
    const facts = { sex: 'boy', bornAt: noon - 2 * HOUR, gestationDays: 238, birthWeightGrams: 2100, card: null } as const;
    const first = [
      answer({ born: 29_000_000, 'birth-weight': 2100, temperature: 36.1 }),
      answer({ temperature: 36.2, 'respiratory-rate': 58 }, 0, 2),
    ];
    const corrected = [first[0]!, answer({ temperature: 36.4, 'respiratory-rate': 58, 'heart-rate': 140 }, 0, 3)];
    const again = [...corrected, answer({ temperature: 36.8 }, 1, 4)];
    const contact = [answer({ 'birth-weight': 2100 }, 0, 0), answer({ weight: 1995, 'respiratory-rate': null })];
    const keyed = (id: string, revision: number) => `examination:${id}:${revision}`;
    await record(
      examination({ ...baby, key: keyed(baby.baby, 0), at: noon, facts, urgency: 'treat', body: bodyOf(first) }),
      examination({ ...baby, key: keyed(baby.baby, 1), at: noon + HOUR, body: bodyOf(corrected) }),
      examination({ ...baby, key: keyed('another', 0), at: noon + 2 * HOUR, flow: 'recheck', body: bodyOf(again, ['first-day-exam']) }),
      examination({ ...baby, key: keyed('third', 0), at: noon + 50 * HOUR, flow: 'postnatal-contact', body: bodyOf(contact) }),
      examination({ ...ofBaby(), body: bodyOf(first) }),
    );
    const course = await watchIn(database).babyCourse(baby.baby);
    expect(course?.baby).toMatchObject({ id: baby.baby, code: '7FK', facility: 'lower-hill', bornAt: facts.bornAt, status: 'followed' });
    expect(course?.gestation).toEqual({ weeks: 34 });
    expect(course?.examinations).toMatchObject([
      { flow: 'first-day-exam', revision: 0, look: 0, ageHours: 2, urgency: 'treat', isCorrected: true, missing: ['heart-rate'], worker },
      { flow: 'first-day-exam', revision: 1, look: 0, ageHours: 3, isCorrected: false, found: [{ id: 'cold', urgency: 'treat' }] },
      { flow: 'recheck', revision: 0, look: 1, ageHours: 4, isCorrected: false, readings: [{ of: 'temperature', value: 36.8 }] },
      { flow: 'postnatal-contact', look: 0, ageHours: 52, readings: [{ of: 'weight', value: 1995 }] },
    ]);
    expect(course?.readings).toEqual({
      'birth-weight': [{ at: noon, ageHours: 2, value: 2100 }],
      temperature: [
        { at: noon, ageHours: 2, value: 36.1 },
        { at: noon + HOUR, ageHours: 3, value: 36.4 },
        { at: noon + 2 * HOUR, ageHours: 4, value: 36.8 },
      ],
      'respiratory-rate': [{ at: noon, ageHours: 2, value: 58 }],
      'heart-rate': [{ at: noon + HOUR, ageHours: 3, value: 140 }],
      weight: [{ at: noon + 50 * HOUR, ageHours: 52, value: 1995 }],
    });
  });

  it('has the histories of its alerts, referrals, work and news, oldest first', async () => {
    const baby = ofBaby();
    const [old, now] = [examination(baby), examination({ ...baby, at: noon + HOUR })];
    const raised = alert(baby);
    const sent = referral(baby);
    const overtaken = due({ baby: baby.baby, examination: old.key });
    const stands = due({ baby: baby.baby, examination: now.key, work: 'contact', dueAt: noon + 24 * HOUR });
    await record(old, now, raised, sent, overtaken, stands);
    await registerIn(database).moveAlert(raised.key, 'open', 'taken', nurse, noon + 1, []);
    await registerIn(database).moveAlert(raised.key, 'taken', 'closed', nurse, noon + 2, []);
    await record(
      referralNews({ referral: sent.key, news: 'refused', reason: 'cost', at: noon + 3 }),
      babyNews({ baby: baby.baby, news: 'handed-over', to: nurse, at: noon + 4 }),
    );
    const course = await watchIn(database).babyCourse(baby.baby);
    expect(course?.alerts).toMatchObject([
      {
        history: [
          { from: null, to: 'open', by: worker, at: noon },
          { from: 'open', to: 'taken', by: nurse, at: noon + 1 },
          { from: 'taken', to: 'closed', by: nurse, at: noon + 2 },
        ],
      },
    ]);
    expect(course?.referrals).toMatchObject([
      { reason: 'cost', history: [{ news: 'refused', reason: 'cost', by: worker, at: noon + 3, from: 'advised', to: 'refused' }] },
    ]);
    expect(course?.work).toMatchObject([
      { key: overtaken.key, state: 'void' },
      { key: stands.key, work: 'contact', state: 'pending', dueAt: noon + 24 * HOUR },
    ]);
    expect(course?.news).toEqual([{ news: 'handed-over', to: nurse, by: worker, at: noon + 4 }]);
  });

  it('has no ages where the birth is not known, and is nothing of a baby that is not there', async () => {
    const one = examination({ body: bodyOf([answer({ temperature: 37 })]) });
    await record(one);
    const course = await watchIn(database).babyCourse(one.baby);
    expect(course?.readings).toEqual({ temperature: [{ at: noon, ageHours: null, value: 37 }] });
    expect(await watchIn(database).babyCourse('nobody')).toBeNull();
  });

  it.each([undefined, null, 'answers', 7, {}])('takes answers of another shape (%j) for none', (answers) => {
    expect(readingsOfLook(answers, 0)).toEqual([]);
  });

  it('lets a correction that takes a reading away take it out of the readings', () => {
    const looked = [
      {
        id: 'a',
        look: 0,
        at: 1,
        ageHours: 1,
        readings: [
          { of: 't', value: 36 },
          { of: 't', value: 37 },
        ],
      },
      { id: 'a', look: 0, at: 2, ageHours: 2, readings: [{ of: 't', value: 37 }] },
    ];
    expect(timedReadings(looked)).toEqual({ t: [{ at: 2, ageHours: 2, value: 37 }] });
  });
});

describe('figures as series', () => {
  const days = { from: '2026-12-21', until: '2027-01-10' };

  it('give every week of the days its place, over the turn of the year, and leave one without a value empty', () => {
    const own = { facility: 'hill', name: 'alerts' };
    const series = seriesOf(
      [
        { facility: null, week: null, name: 'alerts', value: 5 },
        { ...own, week: null, value: 5 },
        { ...own, week: '2026-W52', value: 5 },
        { ...own, week: '2027-W01', value: 0 },
        { facility: 'hill', week: null, name: 'a-share', value: null },
      ],
      days,
    );
    expect(series).toEqual([
      {
        name: 'a-share',
        facility: 'hill',
        whole: null,
        weeks: ['2026-W52', '2026-W53', '2027-W01'].map((week) => ({ week, value: null })),
      },
      { name: 'alerts', facility: null, whole: 5, weeks: ['2026-W52', '2026-W53', '2027-W01'].map((week) => ({ week, value: null })) },
      {
        ...{ name: 'alerts', facility: 'hill', whole: 5 },
        weeks: [
          { week: '2026-W52', value: 5 },
          { week: '2026-W53', value: null },
          { week: '2027-W01', value: 0 },
        ],
      },
    ]);
  });

  it('are those of the facilities that somebody may see, and of all together only where all may be seen', async () => {
    await record(
      examination({ facility: 'hill', at: noon }),
      examination({ facility: 'river', at: noon }),
      examination({ facility: 'lake', at: noon }),
    );
    const facilitiesOf = async (scope: readonly string[] | null) => {
      const series = await watchIn(database).figureSeries(scope, { from: '2026-11-23', until: '2026-11-29' }, noon + HOUR);
      return series.filter(({ name }) => name === 'babies.new').map(({ facility, weeks }) => [facility, weeks]);
    };
    const one = [{ week: '2026-W48', value: 1 }];
    expect(await facilitiesOf(['hill'])).toEqual([['hill', one]]);
    expect(await facilitiesOf(['hill', 'river'])).toEqual([
      ['hill', one],
      ['river', one],
    ]);
    expect((await facilitiesOf(null)).map(([facility]) => facility)).toEqual(expect.arrayContaining([null, 'hill', 'lake', 'river']));
    expect(await facilitiesOf([])).toEqual([]);
  });
});
