// The tables of publications, append-only. Texts are kept once by their hash, so that a publication costs what it changed.
// What may be published is decided before it comes here (src/cli/publish.ts). Next: migrations/0010-publications.sql.

import { createHash } from 'node:crypto';
import type { NewPublication, Publication, Publications, PublishedFile, PublishOutcome } from '../conversation/publications.ts';
import { recordAudit } from './audit.ts';
import type { Database, Sql } from './database.ts';
import { storableText } from './storable.ts';

const columns = 'number, version, by, at, note, restores';

export function publicationsIn(database: Database): Publications {
  return {
    last: () => last(database),
    list: (limit) => database.query<Publication>(`select ${columns} from publications order by number desc limit $1`, [limit]),
    files: (number) =>
      database.query<PublishedFile>(
        `select file as name, text from publication_files join file_texts using (hash) where publication = $1 order by place`,
        [number],
      ),
    publish: (publication) =>
      database.transaction(async (sql) => {
        await sql.script('lock table publications in share row exclusive mode');
        return publishInto(sql, publication);
      }),
  };
}

async function last(sql: Sql): Promise<number> {
  const [row] = await sql.query<{ number: number }>('select coalesce(max(number), 0) as number from publications');
  return row?.number ?? 0;
}

async function publishInto(sql: Sql, { files, after, version, by, at, note, restores }: NewPublication): Promise<PublishOutcome> {
  const before = await last(sql);
  if (before !== after) {
    const [newest] = await sql.query<Publication>(`select ${columns} from publications where number = $1`, [before]);
    if (newest !== undefined) return { kind: 'overtaken', by: newest };
  }
  const number = before + 1;
  await sql.query(`insert into publications (${columns}) values ($1, $2, $3, $4, $5, $6)`, [
    number,
    version,
    storableText(by),
    at,
    note === null ? null : storableText(note),
    restores,
  ]);
  const hashed = files.map(({ name, text: written }, place) => {
    const text = storableText(written);
    return { name, text, place, hash: createHash('sha256').update(text).digest('hex') };
  });
  const json = JSON.stringify(hashed);
  await sql.query(
    `insert into file_texts (hash, text)
       select distinct on (hash) decode(hash, 'hex'), text from jsonb_to_recordset($1::jsonb) as file (hash text, text text)
     on conflict do nothing`,
    [json],
  );
  await sql.query(
    `insert into publication_files (publication, file, hash, place)
       select $2, name, decode(hash, 'hex'), place from jsonb_to_recordset($1::jsonb) as file (name text, hash text, place integer)`,
    [json, number],
  );
  const audit = { kind: 'audit', key: `publication:${number}`, by, what: 'published', about: String(number), at } as const;
  await recordAudit(sql, [{ ...audit, body: { version, note, restores } }]);
  return { kind: 'published', number };
}
