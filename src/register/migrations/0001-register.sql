-- Examinations, alerts with their history, texts to send. Instants are epoch milliseconds, as the core counts them.
-- Every primary key is natural: a fact that arrives twice finds its own row.

create table examinations (
  key text primary key,
  worker text not null,
  facility text not null,
  code text not null,
  at bigint not null,
  body jsonb not null
);
create index examinations_by_code on examinations (code, at);

create table alerts (
  key text primary key,
  worker text not null,
  facility text not null,
  nurse text not null,
  code text not null,
  at bigint not null,
  state text not null default 'open' check (state in ('open', 'taken', 'closed')),
  taken_by text,
  -- How often it was moved; the number of its last row in alert_history.
  moves integer not null default 0,
  body jsonb not null
);
create index alerts_not_closed_by_code on alerts (code, at) where state <> 'closed';

-- Who did what to an alert, and when. Move 0 is its raising.
create table alert_history (
  alert text not null references alerts (key),
  move integer not null,
  state_from text,
  state_to text not null,
  by text not null,
  at bigint not null,
  primary key (alert, move)
);

create function refuse_change() returns trigger language plpgsql as $$
begin
  raise exception 'Rows of % are written once and never changed or deleted. Insert a further row instead.', tg_table_name;
end $$;

create trigger alert_history_is_append_only before update or delete or truncate on alert_history
  for each statement execute function refuse_change();

create table texts_out (
  key text primary key,
  recipient text not null,
  text text not null,
  urgent boolean not null,
  at bigint not null,
  -- due: to be sent at due_at. unknown: not urgent, and perhaps sent; never sent again.
  state text not null default 'due' check (state in ('due', 'sent', 'unknown', 'given-up')),
  due_at bigint not null,
  attempts integer not null default 0,
  gateway_id text,
  -- Why the last attempt failed.
  reason text,
  settled_at bigint
);
create index texts_out_due on texts_out (urgent desc, at, key) where state = 'due';
