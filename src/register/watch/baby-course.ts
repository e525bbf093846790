// One baby from its first examination to now: what was found and read each time, its alerts and referrals with their histories,
// what falls due. Next: look-readings.ts (which reading belongs to which look), course-histories.ts.

import { ageHours } from '../../clinical/age.ts';
import type { Gestation } from '../../clinical/protocol.ts';
import type { BabyCourse, CourseExamination, Found, WatchedBaby } from '../../conversation/watch.ts';
import type { Database, Sql } from '../database.ts';
import { storableText } from '../storable.ts';
import { alertsOf, newsOf, referralsOf, workOf } from './course-histories.ts';
import { foundIn } from './fragments.ts';
import { type Looked, readingsOfLook, timedReadings } from './look-readings.ts';

/** No baby has so many; a page that showed more would not be read. The newest are kept. */
const mostExaminations = 200;

/** All rows as of one instant. */
export function babyCourse(database: Database, id: string): Promise<BabyCourse | null> {
  return database.transaction(async (sql) => {
    await sql.script('set transaction isolation level repeatable read');
    const [baby] = await sql.query<WatchedBaby>(
      `select id, code, facility, worker, status, sex, born_at as "bornAt", gestation_days as "gestationDays",
          birth_weight_grams as "birthWeightGrams", card
         from babies where id = $1 and status <> 'erased'`,
      [storableText(id)],
    );
    if (baby === undefined) return null;
    const rows = await examinationsOf(sql, baby.id);
    const looked = rows.map((row) => lookedIn(row, baby.bornAt));
    return {
      baby,
      gestation: rows.at(-1)?.gestation ?? null,
      examinations: rows.map((row, place) => examinationIn(row, looked, place)),
      readings: timedReadings(looked),
      alerts: await alertsOf(sql, baby.id),
      referrals: await referralsOf(sql, baby.id),
      work: await workOf(sql, baby.id),
      news: await newsOf(sql, baby.id),
    };
  });
}

interface ExaminationRow {
  readonly key: string;
  readonly at: number;
  readonly facility: string;
  readonly worker: string;
  readonly flow: string | null;
  readonly urgency: string | null;
  readonly version: string | null;
  readonly look: number;
  readonly answers: unknown;
  readonly gestation: Gestation | null;
  readonly found: readonly Found[];
  readonly missing: readonly string[];
}

async function examinationsOf(sql: Sql, baby: string): Promise<ExaminationRow[]> {
  const list = (path: string): string => `case jsonb_typeof(body #> '${path}') when 'array' then body #> '${path}' else '[]' end`;
  const rows = await sql.query<ExaminationRow>(
    `select key, at, facility, worker, flow, urgency, version, jsonb_array_length(${list('{examination,earlier}')}) as look,
        body #> '{examination,answers}' as answers, nullif(body #> '{case,gestation}', 'null') as gestation,
        ${foundIn('body')} as found, ${list('{interpretation,missing}')} as missing
       from examinations where baby = $1 order by at desc, key desc limit ${mostExaminations}`,
    [baby],
  );
  return rows.reverse();
}

/** The key is `examination:<id>:<revision>` (src/dialog/facts.ts). */
function partsOf(key: string): { readonly id: string; readonly revision: number } {
  const [, id = key, revision = '0'] = /^(.*):(\d+)$/s.exec(key) ?? [];
  return { id, revision: Number(revision) };
}

function lookedIn({ key, at, look, answers }: ExaminationRow, bornAt: number | null): Looked {
  return {
    id: partsOf(key).id,
    look,
    at,
    ageHours: bornAt === null ? null : ageHours(bornAt, at),
    readings: readingsOfLook(answers, look),
  };
}

function examinationIn(row: ExaminationRow, looked: readonly Looked[], place: number): CourseExamination {
  const { answers: _answers, gestation: _gestation, urgency, ...rest } = row;
  const { id, revision } = partsOf(row.key);
  const isCorrected = looked.slice(place + 1).some((later) => later.id === id && later.look === row.look);
  const { ageHours: age, readings } = looked[place] ?? { ageHours: null, readings: [] };
  return { ...rest, urgency: urgency ?? 'incomplete', ageHours: age, revision, isCorrected, readings };
}
