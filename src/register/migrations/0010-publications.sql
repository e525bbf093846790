-- What phones are asked and told, as it was published: append-only, so that each examination's version can be read again, and an
-- undo is one publication more. Texts of files are kept once, by their hash.
create table file_texts (
  -- SHA-256.
  hash bytea primary key,
  text text not null
);
create table publications (
  number integer primary key,
  -- Hash of all its files, as in examinations.
  version text not null,
  by text not null,
  at bigint not null,
  note text,
  -- The publication whose files came back with it; null: they were new.
  restores integer references publications (number)
);
create table publication_files (
  publication integer not null references publications (number),
  file text not null,
  hash bytea not null references file_texts (hash),
  -- In the order in which they are read.
  place integer not null,
  primary key (publication, file)
);

create trigger publications_are_append_only before update or delete or truncate on publications
  for each statement execute function refuse_change();
create trigger publication_files_are_append_only before update or delete or truncate on publication_files
  for each statement execute function refuse_change();
create trigger file_texts_are_append_only before update or delete or truncate on file_texts
  for each statement execute function refuse_change();
