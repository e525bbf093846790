-- Examinations that were begun and did not end with the same message, so that where they are given up can be counted.
create table begun (
  key text primary key,
  -- Key that the examination has once it ended.
  examination text not null,
  flow text not null,
  worker text not null,
  facility text not null,
  at bigint not null,
  look_at bigint not null,
  state text not null default 'open' check (state in ('open', 'ended', 'given-up')),
  -- Where it was given up; null: not known.
  step text
);
create index begun_to_look_at on begun (look_at, key) where state = 'open';
create index begun_by_time on begun (at);
