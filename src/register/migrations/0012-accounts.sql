-- Who may open the console.
create table accounts (
  name text primary key,
  role text not null check (role in ('nurse', 'coordinator')),
  phone text,
  password_hash text not null,
  wrong_tries integer not null default 0,
  waits_until bigint not null default 0
);
create table account_sessions (
  -- SHA-256 of the token in the cookie.
  token bytea primary key,
  account text not null references accounts (name) on delete cascade,
  form_token text not null,
  begun_at bigint not null,
  seen_at bigint not null
);
create index account_sessions_by_account on account_sessions (account);

-- What a coordinator has written and not published: only files that she has touched.
create table draft_files (
  file text primary key,
  text text not null,
  by text not null,
  at bigint not null,
  -- Counts its saves, so that two who write at once see each other.
  save integer not null
);
