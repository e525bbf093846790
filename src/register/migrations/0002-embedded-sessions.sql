-- Sessions by phone and the memory of answered messages, for a desk without Redis; empty where there is one.
-- Texts are bytes, so that they come back exactly as they went in. Instants are epoch milliseconds.

create table sessions (
  phone text primary key,
  session bytea,
  expires_at bigint,
  lock_token text,
  locked_until bigint
);

create table answered_messages (
  phone text not null,
  -- SHA-256 of the message's id.
  message bytea not null,
  reply bytea not null,
  expires_at bigint not null,
  primary key (phone, message)
);
