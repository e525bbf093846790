// The audit trail, newest first, in pages. Next: src/register/audit.ts, which writes it.

import type { AuditLine, AuditPage } from '../../conversation/watch.ts';
import type { Sql } from '../database.ts';
import { storableText } from '../storable.ts';

/** Lines of one instant are ordered by their key. After a key that is not there: nothing. */
export function auditTrail(sql: Sql, { before, limit }: AuditPage): Promise<AuditLine[]> {
  const columns = 'key, at, by, what, about, body';
  const order = 'order by at desc, key desc limit $1';
  if (before === undefined) return sql.query(`select ${columns} from audit ${order}`, [limit]);
  return sql.query(
    `select ${columns} from audit
      where at <= (select at from audit where key = $2) and (at, key) < (select at, key from audit where key = $2) ${order}`,
    [limit, storableText(before)],
  );
}
