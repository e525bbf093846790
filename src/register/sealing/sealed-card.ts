// The number of a mother's card wherever it stands in what is written of a baby. Next: seal.ts.

import type { Sql } from '../database.ts';

/** The value with the text of every `card` in it sealed, however deep. */
export function withSealedCard<Value>(sql: Pick<Sql, 'seal'>, value: Value): Value {
  return hasCard(value) ? sealed(sql, value) : value;
}

/** Of most of what is written no number of a card is known: it is not made anew. */
function hasCard(value: unknown): boolean {
  if (value === null || typeof value !== 'object') return false;
  for (const [name, one] of Object.entries(value)) if (name === 'card' || hasCard(one)) return true;
  return false;
}

function sealed<Value>(sql: Pick<Sql, 'seal'>, value: Value): Value {
  if (Array.isArray(value)) return value.map((one) => sealed(sql, one)) as Value;
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, one]) => [
      name,
      name === 'card' && typeof one === 'string' && one !== '' ? sql.seal(one) : sealed(sql, one),
    ]),
  ) as Value;
}
