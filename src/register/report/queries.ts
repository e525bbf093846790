// The SQL of the figures. Each takes $1, $2 instants around the period, $3, $4 its first and last day, $5 one facility or null, and
// groups by facility and week, by facility, and over all. Next: figures.ts.

export type Query = string;

/**
 * What happened, put into the facility's own calendar.
 *
 * Takes  rows: a select with `facility`, `at` (epoch milliseconds), and `name` or `minutes`, of `at` between $1 and $2.
 */
const placed = (rows: string): string => `
  with happened as (${rows}),
  dated as (
    select happened.*, timezone(coalesce(facilities.zone, 'UTC'), to_timestamp(at / 1000.0)) as local
      from happened left join facilities on facilities.id = happened.facility
      where $5::text is null or happened.facility = $5),
  placed as (
    select dated.*, to_char(local, 'IYYY"-W"IW') as week from dated where local::date between $3::date and $4::date)`;

const grouping = 'grouping sets ((name, facility, week), (name, facility), (name))';

const counts = (rows: string): Query =>
  `${placed(rows)} select facility, week, name, count(*)::integer as value from placed group by ${grouping}`;

/**
 * Percentiles by linear interpolation between the two nearest values, Hyndman and Fan's definition 7 ("Sample Quantiles in
 * Statistical Packages", The American Statistician 50, 1996, 361-365), which is PostgreSQL's percentile_cont.
 */
const times = (rows: string): Query =>
  `${placed(rows)} select facility, week, name, count(minutes)::integer as count,
      percentile_cont(array[0.5, 0.9]) within group (order by minutes) as minutes
    from placed group by ${grouping}`;

const during = 'at >= $1 and at < $2';

/**
 * When the baby of an alert arrived after it, and before its next alert: that arrival is of the next one. A referral from before the
 * alert counts, when the baby arrived later. Read once for all alerts, since no index finds the referrals of a baby.
 */
const alertsUntilNext = `(select raised.*, lead(at) over (partition by baby order by at, key) as next_at from alerts as raised) as alerts`;
const arrivals = `
  select alerts.facility, alerts.at, 'minutes.danger-to-arrival' as name, (min(arrived_at) - alerts.at) / 60000.0 as minutes
    from ${alertsUntilNext} left join referrals on referrals.baby = alerts.baby and arrived_at >= alerts.at
      and (next_at is null or arrived_at < next_at)
    where alerts.at >= $1 and alerts.at < $2 group by alerts.key, alerts.facility, alerts.at`;
const takenAt = `(select min(at) from alert_history where alert = alerts.key and state_to = 'taken')`;

/** A contact counts in the week in which its time ends, unless the baby had died or moved by then. */
const contacts = (name: string, more: string): string => `
  select babies.facility, (due_work.body ->> 'to')::bigint as at, ${name} as name
    from due_work join babies on babies.id = due_work.baby
    where work = 'contact' and (due_work.body ->> 'to')::bigint >= $1 and (due_work.body ->> 'to')::bigint < $2
      and not exists (select from baby_history where baby_history.baby = babies.id and news in ('died', 'moved')
        and baby_history.at < (due_work.body ->> 'to')::bigint)
      -- Examined again before its time came, as by a second look, which planned it anew: counted once, from there.
      and not exists (select from examinations newer, examinations origin where origin.key = due_work.examination
        and newer.baby = due_work.baby and newer.at > origin.at and newer.at < (due_work.body ->> 'from')::bigint
        and (due_work.body ->> 'from')::bigint < (due_work.body ->> 'to')::bigint) ${more}`;

/** Done on time: looked at after the examination that it follows from, and before its time was over. */
const isOnTime = `and exists (select from examinations done, examinations origin
  where origin.key = due_work.examination and done.baby = babies.id and done.at > origin.at and done.at <= (due_work.body ->> 'to')::bigint)`;

const dayOfTexts = `
  select coalesce(people.facility, places.id, '') as facility, texts_out.* from texts_out
    left join people on people.phone = texts_out.recipient
    left join lateral (select id from facilities where facilities.phone = texts_out.recipient order by id limit 1) as places on true
    where texts_out.at >= $1 and texts_out.at < $2`;

export const counted: readonly Query[] = [
  counts(`select facility, at, 'examinations' as name from examinations where ${during}`),
  counts(`select facility, at, 'examinations.flow.' || coalesce(flow, 'not-known') as name from examinations where ${during}`),
  counts(`select facility, at, 'examinations.urgency.' || coalesce(urgency, 'incomplete') as name from examinations where ${during}`),
  // One that ended with the message that began it, and a correction, are begun and ended.
  counts(`select facility, at, 'examinations.begun' as name from examinations where ${during}
      and not exists (select from begun where begun.key = 'begun' || substr(examinations.key, length('examination') + 1))
    union all select facility, at, 'examinations.begun' from begun where ${during}`),
  counts(`select facility, at, 'examinations.given-up' as name from begun where ${during} and state = 'given-up'`),
  counts(`select facility, at, 'examinations.given-up.at.' || flow || '.' || coalesce(step, 'not-known') as name from begun
    where ${during} and state = 'given-up'`),
  counts(`select facility, first_at as at, 'babies.new' as name from babies where first_at >= $1 and first_at < $2`),
  counts(`select facility, at, 'alerts' as name from alerts where ${during}`),
  counts(`select facility, at, 'alerts.not-taken' as name from alerts where ${during} and ${takenAt} is null`),
  // Urgent, and the examination has not been ended since.
  counts(`select facility, at, 'alerts.examination-not-ended' as name from alerts where ${during}
    and not exists (select from examinations later where later.baby = alerts.baby and later.at >= alerts.at)`),
  counts(`select facility, at, 'referrals.' || urgency as name from referrals where ${during}`),
  counts(`select facility, at, 'referrals.now.' || state as name from referrals where ${during}`),
  counts(`select facility, at, 'not-assessed.' || finding as name from examinations,
    jsonb_array_elements_text(case jsonb_typeof(body #> '{interpretation,missing}') when 'array' then body #> '{interpretation,missing}' else '[]' end)
      as finding where ${during}`),
  counts(contacts(`'contacts.due'`, '')),
  counts(contacts(`'contacts.on-time'`, isOnTime)),
  counts(`select babies.facility, due_at as at, 'reminders.missed' as name from due_work join babies on babies.id = due_work.baby
    where due_work.state = 'missed' and due_at >= $1 and due_at < $2`),
  counts(`select facility, at, 'texts.' || state as name from (${dayOfTexts}) as texts`),
];

export const timed: readonly Query[] = [
  times(`select facility, at, 'minutes.danger-to-taken' as name, (${takenAt} - at) / 60000.0 as minutes from alerts where ${during}`),
  times(arrivals),
];

/** Takes also $6, how many at most. Newest first. */
export const notDelivered: Query = `${placed(`select texts.*, '' as name from (${dayOfTexts}) as texts
    where state in ('given-up', 'undelivered', 'unknown')`)}
  select at, facility, recipient, urgent, state, attempts, reason from placed order by at desc, key limit $6`;

/** Texts that went out, or may have: each wording once, with how often. Of erased words only what they cost is known. */
export const textsSent: Query = `${placed(`select texts.*, '' as name from (${dayOfTexts}) as texts where state not in ('due', 'given-up')`)}
  select facility, week, text, segments, count(*)::integer as times from placed group by facility, week, text, segments`;
