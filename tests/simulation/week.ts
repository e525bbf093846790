// A simulated week of an invented district, and the figures of it. The same seed gives the same week. Next: run.ts, which prints one.

import { createHash } from 'node:crypto';
import { rosterOf } from '../../src/conversation/roster.ts';
import { measure } from '../../src/messages/segments.ts';
import { openTestRegister } from '../support/test-register.ts';
import { chanceOf } from './chance.ts';
import { type DistrictSize, districtOf } from './district.ts';
import { broken, type Seen } from './invariants.ts';
import { listenAsNurse } from './nurses.ts';
import { type Deeds, examine, listenAsWorker } from './workers.ts';
import { DAY, openWorld, type WorldParts } from './world.ts';

/** Monday before the clocks go forward in the district. */
const start = Date.parse('2026-04-20T00:00:00+02:00');

export interface WeekOptions extends DistrictSize {
  readonly seed: number;
  readonly births: number;
  readonly days: number;
  readonly spoil?: NonNullable<WorldParts['spoil']>;
}

export const wholeWeek = { facilities: 20, workers: 120, nurses: 10, births: 900, days: 7 } as const;

export interface Week {
  readonly figures: Readonly<Record<string, number>>;
  /** Claims that broke, at the first hour that any did. */
  readonly broken: readonly string[];
  /** Of all texts and replies, with their instants. */
  readonly digest: string;
}

export async function simulate({ seed, births, days, spoil, ...size }: WeekOptions): Promise<Week> {
  const chance = chanceOf(seed);
  const data = districtOf(size);
  const register = openTestRegister();
  const world = await openWorld({ register, roster: rosterOf(data), chance, start, ...(spoil === undefined ? {} : { spoil }) });
  const workers = data.people.filter(({ roles }) => roles.includes('worker'));
  for (const { phone } of workers) listenAsWorker(world, phone);
  for (const { phone, roles } of data.people) if (!roles.includes('worker')) listenAsNurse(world, phone);
  const deeds: Deeds = { begun: 0, finished: 0, givenUp: 0 };
  for (let birth = 0; birth < births; birth += 1) {
    const { phone } = chance.pick(workers);
    world.later(Math.floor(chance.next() * days * DAY), async () => examine(world, phone, deeds));
  }
  let found: readonly string[] = [];
  let seen: Seen = { texts: 0, replies: 0 };
  await world.run(start + days * DAY, async () => {
    if (found.length === 0) found = await broken(world, register, seen);
    seen = { texts: world.handedOver.length, replies: world.replies.length };
  });
  const count = async (sql: string): Promise<number> =>
    Number((await register.rows(`select count(*)::integer as n from ${sql}`))[0]?.n ?? 0);
  const texts = [...world.replies, ...world.handedOver];
  const figures = {
    begun: deeds.begun,
    finished: deeds.finished,
    'given up': deeds.givenUp,
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
    'texts out': world.handedOver.length,
    replies: world.replies.length,
    segments: texts.reduce((sum, { text }) => sum + measure(text).segments, 0),
  };
  const digest = createHash('sha256').update(JSON.stringify(texts)).digest('hex');
  return { figures, broken: found, digest };
}
