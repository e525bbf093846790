// Days of an invented district, calm or stormy, and what became of them. The same seed gives the same days. Next: run.ts, which prints.

import { createHash } from 'node:crypto';
import { rosterOf } from '../../src/conversation/roster.ts';
import { measure } from '../../src/messages/segments.ts';
import { openTestRegister } from '../support/test-register.ts';
import { manySigns, usualPrevalence } from './babies.ts';
import { roughShares, usualShares } from './carrier.ts';
import { type Chance, chanceOf } from './chance.ts';
import { type DistrictSize, districtOf } from './district.ts';
import { brokenAtTheEnd, brokenNow, brokenOnPhones, nothingSeen, seenOf } from './invariants.ts';
import { listenAsNurse } from './nurses.ts';
import { DAY, HOUR, MINUTE, SECOND } from './times.ts';
import { calm, stormy } from './weather.ts';
import { type Deed, examine, listenAsWorker } from './workers.ts';
import { openWorld, type WorldParts } from './world.ts';

/** Monday before the clocks go forward in the district. */
const start = Date.parse('2026-04-20T00:00:00+02:00');

export interface Days extends DistrictSize {
  readonly seed: number;
  readonly births: number;
  readonly days: number;
  /** True: stores, gateways and processes fail, as the seed has it, and then come right. */
  readonly isStormy: boolean;
  /** Of an alert; left out: 1. */
  readonly askedAtOnce?: number;
  readonly spoil?: NonNullable<WorldParts['spoil']>;
}

export interface Lived {
  readonly figures: Readonly<Record<string, number>>;
  /** What the weather did. */
  readonly happened: Readonly<Record<string, number>>;
  /** Claims that broke, when the first did. */
  readonly broken: readonly string[];
  /** When that was; null: never. */
  readonly brokeAt: number | null;
  /** Of all texts and replies, with their instants. */
  readonly digest: string;
}

export const wholeWeek = { facilities: 20, workers: 120, nurses: 10, births: 900, days: 7, isStormy: false } as const;
/** A district of one hospital and two centres; some three births in two days. */
export const smallDistrict = { facilities: 3, workers: 8, nurses: 6, births: 14, days: 10, isStormy: true } as const;

/** After the last day: time for what is still going on, and for what was held up. */
const evening = 5 * HOUR;

/** Most clocks are seconds off; one in ten by up to four minutes. */
const skewBy = (chance: Chance): number => (chance.is(0.1) ? chance.whole(-240, 240) : chance.whole(-2, 2)) * SECOND;

export async function live({ seed, births, days, isStormy, askedAtOnce = 1, spoil, ...size }: Days): Promise<Lived> {
  const chance = chanceOf(seed);
  const data = districtOf(size);
  const register = openTestRegister();
  const ends = start + days * DAY;
  const weather = isStormy ? stormy(chance, start, ends) : calm();
  const world = await openWorld({
    ...{ register, roster: rosterOf(data), chance, start, weather },
    shares: (now) => (isStormy && now < ends ? roughShares : usualShares),
    prevalence: isStormy ? manySigns : usualPrevalence,
    processes: isStormy ? 2 : 1,
    askedAtOnce,
    skew: (now) => (isStormy && now < ends ? skewBy(chance) : 0),
    ...(spoil === undefined ? {} : { spoil }),
  });
  const workers = data.people.filter(({ roles }) => roles.includes('worker'));
  for (const { phone } of workers) listenAsWorker(world, phone);
  const nurses = data.people.filter(({ roles }) => !roles.includes('worker')).map(({ phone }) => phone);
  for (const phone of nurses) listenAsNurse(world, phone, nurses);
  const deeds: Deed[] = [];
  for (let birth = 0; birth < births; birth += 1) {
    const { phone } = chance.pick(workers);
    world.scheduler.after(Math.floor(chance.next() * (days * DAY - 2 * HOUR)), () => examine(world, phone, deeds));
  }
  let broken: readonly string[] = [];
  let brokeAt: number | null = null;
  const note = (found: readonly string[]): void => {
    if (broken.length > 0 || found.length === 0) return;
    broken = [...new Set(found)];
    brokeAt = world.scheduler.now();
  };
  let seen = nothingSeen;
  const look = async (): Promise<void> => {
    note(await brokenNow(world, register));
    note(await brokenOnPhones(world, register, seen));
    if (!isStormy) note(world.faults.map((fault) => `nothing is logged as a fault: ${fault}`));
    seen = seenOf(world);
  };
  for (let hour = HOUR; hour < ends + evening - start; hour += HOUR) world.scheduler.after(hour, look);
  await world.run(ends + evening, async () => {
    // In a calm whole district the hourly look is enough, and a look after every change would take most of the time.
    if (isStormy && brokeAt === null) note(await brokenNow(world, register));
  });
  await look();
  note(await brokenAtTheEnd(world, register, deeds));
  const count = async (sql: string): Promise<number> =>
    Number((await register.rows(`select count(*)::integer as n from ${sql}`))[0]?.n ?? 0);
  const texts = [...world.carrier.replies, ...world.carrier.handedOver];
  const ended = (outcome: Deed['outcome']): number => deeds.filter((deed) => deed.outcome === outcome).length;
  const figures = {
    begun: deeds.length,
    finished: ended('finished'),
    'given up': ended('given up'),
    examinations: await count('examinations'),
    urgent: await count(`examinations where urgency = 'urgent'`),
    refer: await count(`examinations where urgency = 'refer'`),
    treat: await count(`examinations where urgency = 'treat'`),
    routine: await count(`examinations where urgency = 'routine'`),
    alerts: await count('alerts'),
    'alerts taken': await count(`alerts where taken_by is not null`),
    'asks of a further person': await count('alert_asks where step > 0'),
    referrals: await count('referrals'),
    left: await count('referrals where left_at is not null'),
    arrived: await count('referrals where arrived_at is not null'),
    refused: await count('referrals where reason is not null'),
    'reminders missed': await count(`due_work where state = 'missed'`),
    'texts out': world.carrier.handedOver.length,
    'segments of texts out': world.carrier.handedOver.reduce((sum, { text }) => sum + measure(text).segments, 0),
    replies: world.carrier.replies.length,
    segments: texts.reduce((sum, { text }) => sum + measure(text).segments, 0),
    minutes: Math.round((days * DAY + evening) / MINUTE),
  };
  const digest = createHash('sha256').update(JSON.stringify(texts)).digest('hex');
  return { figures, happened: weather.happened, broken, brokeAt, digest };
}
