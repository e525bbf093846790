-- The roster: facilities, people, shifts, leave, and which import they come from. An import writes all of it or nothing, and what
-- it changed stands in audit. Other tables name people and facilities without leaning on these: who left is still in the record.

create table facilities (
  id text primary key,
  name text not null,
  zone text not null,
  phone text not null,
  above text references facilities (id),
  refers_to text references facilities (id),
  travel_minutes integer,
  -- Line in the coordinator's table, so that an export gives back her order.
  place integer not null
);

create table people (
  phone text primary key,
  name text not null,
  roles text[] not null,
  facility text not null references facilities (id),
  language text not null,
  may_inject boolean not null,
  place integer not null
);

create table shifts (
  facility text not null references facilities (id),
  -- As written in the table: daily, mon-fri, 2026-12-24..2026-12-26.
  days text not null,
  from_minute integer not null,
  to_minute integer not null,
  phone text not null references people (phone),
  call_order integer not null,
  place integer not null,
  primary key (facility, days, from_minute, call_order)
);

create table leave (
  phone text not null references people (phone),
  from_day text not null,
  until_day text not null,
  instead text references people (phone),
  place integer not null,
  primary key (phone, from_day)
);

create table roster_imports (
  number integer primary key,
  by text not null,
  at bigint not null
);

create trigger roster_imports_is_append_only before update or delete or truncate on roster_imports
  for each statement execute function refuse_change();
