// The three growth questions, bound to one set of tables. What a caller holds instead of the tables themselves, so that
// computed.ts can be tested with any answers and knows no file. Next: size-for-gestation.ts, who-for-age.ts, preterm-growth.ts.

import type { GrowthTables } from './growth-tables.ts';
import { type MeasuredAtPostmenstrualAge, pretermGrowth } from './preterm-growth.ts';
import type { NoReference, Size } from './size.ts';
import { type MeasuredAtBirth, sizeForGestation } from './size-for-gestation.ts';
import { type MeasuredAtAge, type WhoCentile, whoForAge } from './who-for-age.ts';

export interface Growth {
  sizeForGestation(measured: MeasuredAtBirth): Size | NoReference;
  whoForAge(measured: MeasuredAtAge): Size<WhoCentile> | NoReference;
  pretermGrowth(measured: MeasuredAtPostmenstrualAge): Size | NoReference;
}

export function bindGrowth(tables: GrowthTables): Growth {
  return {
    sizeForGestation: (measured) => sizeForGestation(tables, measured),
    whoForAge: (measured) => whoForAge(tables, measured),
    pretermGrowth: (measured) => pretermGrowth(tables, measured),
  };
}
