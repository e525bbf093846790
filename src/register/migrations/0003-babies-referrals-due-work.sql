-- Babies who are followed, their referrals, what falls due, delivery reports of texts, and the audit trail.

-- What follows from a baby's examinations and its news, whatever order they came in. Its row is locked before what hangs on it.
create table babies (
  -- Id of the examination in which the baby was first seen.
  id text primary key,
  code text not null,
  facility text not null,
  -- Who follows it now.
  worker text not null,
  sex text,
  born_at bigint,
  gestation_days integer,
  birth_weight_grams integer,
  card text,
  status text not null default 'followed' check (status in ('followed', 'died', 'moved', 'erased')),
  -- Key and instant of the examination that came last, by its own clock.
  last_examination text,
  last_at bigint,
  first_at bigint not null
);
create index babies_followed_by_code on babies (facility, code) where status = 'followed';
create index babies_followed_by_worker on babies (worker) where status = 'followed';

-- Examinations of before have no flow and no facts apart from their body.
alter table examinations add column baby text;
alter table examinations add column flow text;
alter table examinations add column urgency text;
alter table examinations add column version text;
-- What it says of the baby: sex, bornAt, gestationDays, birthWeightGrams, card.
alter table examinations add column facts jsonb;
update examinations set
  baby = substring(key from '^examination:(.*):[0-9]+$'),
  urgency = body #>> '{interpretation,urgency}',
  version = body ->> 'version';
create index examinations_by_baby on examinations (baby, at);
create index examinations_by_facility on examinations (facility, at);

alter table alerts add column baby text;
update alerts set baby = substring(key from '^alert:(.*)$');
create unique index alerts_one_not_closed_a_baby on alerts (baby) where state <> 'closed';
create index alerts_by_facility on alerts (facility, at);

-- Who was asked to take an alert, in order. Step 0 is the nurse of the alert's own entry.
create table alert_asks (
  alert text not null references alerts (key),
  step integer not null,
  nurse text not null,
  why text not null,
  at bigint not null,
  primary key (alert, step)
);
insert into alert_asks (alert, step, nurse, why, at) select key, 0, nurse, 'raised', at from alerts;

insert into babies (id, code, facility, worker, first_at)
  select distinct on (baby) baby, code, facility, worker, at
    from (select baby, code, facility, worker, at from examinations union all select baby, code, facility, worker, at from alerts) as seen
    where baby is not null order by baby, at;
update babies set (last_examination, last_at) =
  (select key, at from examinations where baby = babies.id order by at desc, key desc limit 1);

-- What joined an alert that was open already.
create table alert_news (
  key text primary key,
  alert text not null references alerts (key),
  worker text not null,
  at bigint not null,
  body jsonb not null
);
create index alert_news_by_alert on alert_news (alert, at);

create table referrals (
  key text primary key,
  baby text not null,
  worker text not null,
  facility text not null,
  receiving text,
  code text not null,
  urgency text not null check (urgency in ('urgent', 'refer')),
  at bigint not null,
  state text not null default 'advised' check (state in ('advised', 'left', 'refused', 'arrived', 'closed')),
  left_at bigint,
  arrived_at bigint,
  outcome text,
  reason text,
  closed_at bigint,
  body jsonb not null
);
create unique index referrals_one_not_closed_a_baby on referrals (baby) where state <> 'closed';
create index referrals_not_closed_by_code on referrals (code, at) where state <> 'closed';
create index referrals_by_facility on referrals (facility, at);

create table referral_history (
  key text primary key,
  referral text not null references referrals (key),
  news text not null,
  reason text,
  by text not null,
  at bigint not null,
  state_from text not null,
  state_to text not null
);
create index referral_history_by_referral on referral_history (referral, at);

create table baby_history (
  key text primary key,
  baby text not null,
  news text not null,
  to_worker text,
  by text not null,
  at bigint not null
);
create index baby_history_by_baby on baby_history (baby, at);

create table due_work (
  key text primary key,
  work text not null,
  baby text not null,
  -- Void once a later examination of the baby is in the register.
  examination text,
  alert text,
  referral text,
  due_at bigint not null,
  -- How often it was due before.
  times integer not null default 0,
  -- How often it could not be answered since it was answered last.
  faults integer not null default 0,
  -- pending: due at due_at. missed: asked for often enough, and still on the worker's list.
  -- void: the baby is followed no more, or what it followed from does not stand any more.
  state text not null default 'pending' check (state in ('pending', 'done', 'missed', 'void')),
  settled_at bigint,
  body jsonb not null
);
create index due_work_pending on due_work (due_at, key) where state = 'pending';
create index due_work_open_by_baby on due_work (baby) where state in ('pending', 'missed');

alter table texts_out drop constraint texts_out_state_check;
alter table texts_out add constraint texts_out_state_check
  check (state in ('due', 'sent', 'delivered', 'unknown', 'undelivered', 'given-up'));
alter table texts_out add column reported_at bigint;
-- The last attempt of which the gateway reported that it failed, and the gateway's ids of all such attempts.
alter table texts_out add column failed_attempt integer not null default 0;
alter table texts_out add column failed_ids text[] not null default '{}';
-- A gateway speaks of a text by a digest of its key, which holds a phone's number.
create unique index texts_out_by_reference on texts_out (md5(key));
create index texts_out_by_time on texts_out (at);

-- Who changed what. Facts of babies are in their own tables.
create table audit (
  key text primary key,
  by text not null,
  what text not null,
  about text not null,
  at bigint not null,
  body jsonb not null
);
create index audit_by_time on audit (at);

create trigger referral_history_is_append_only before update or delete or truncate on referral_history
  for each statement execute function refuse_change();
create trigger baby_history_is_append_only before update or delete or truncate on baby_history
  for each statement execute function refuse_change();
create trigger alert_asks_is_append_only before update or delete or truncate on alert_asks
  for each statement execute function refuse_change();
create trigger audit_is_append_only before update or delete or truncate on audit
  for each statement execute function refuse_change();

-- The few entries that could not be written while the register was away, where sessions share its database.
create table kept_entries (
  -- SHA-256 of the entry's key.
  key bytea primary key,
  entry bytea not null,
  place bigserial
);
create index kept_entries_in_order on kept_entries (place);
