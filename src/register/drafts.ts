// The table of the draft. Of two who save one file at once, the second is told. Next: migrations/0012-accounts.sql.

import type { DraftFile, Drafts } from '../conversation/drafts.ts';
import type { Database } from './database.ts';
import { storableText } from './storable.ts';

const columns = 'file as name, text, by, at, save';

export function draftsIn(database: Database): Drafts {
  return {
    read: () => database.query<DraftFile>(`select ${columns} from draft_files order by file`),
    save: ({ name, text, by, at }, seen) =>
      database.transaction(async (sql) => {
        await sql.script('lock table draft_files in share row exclusive mode');
        const [there] = await sql.query<DraftFile>(`select ${columns} from draft_files where file = $1`, [name]);
        if ((there?.save ?? 0) !== seen && there !== undefined) return { kind: 'overtaken', by: there };
        const save = (there?.save ?? 0) + 1;
        await sql.query(
          `insert into draft_files (file, text, by, at, save) values ($1, $2, $3, $4, $5)
             on conflict (file) do update set text = $2, by = $3, at = $4, save = $5`,
          [name, storableText(text), by, at, save],
        );
        return { kind: 'saved', save };
      }),
    discard: async (name, save) => {
      const which = '($1::text is null or file = $1) and ($2::integer is null or save = $2)';
      await database.query(`delete from draft_files where ${which}`, [name ?? null, save ?? null]);
    },
  };
}
