// Months to export: what played conversations left in the register, and the reference cases written to it as examinations.

import { readFileSync } from 'node:fs';
import { playScript } from '../../../src/cli/play-script.ts';
import { readScript } from '../../../src/cli/script.ts';
import type { ExaminationEntry } from '../../../src/conversation/records.ts';
import type { Database } from '../../../src/register/database.ts';
import type { RegisterMonth } from '../../../src/register/export/month.ts';
import { boundsOf } from '../../../src/register/export/month.ts';
import { readMonth } from '../../../src/register/export/read-month.ts';
import { openDesk, published } from '../../support/desk.ts';
import { referenceCases } from '../../support/reference-cases.ts';
import { openTestRegister, type TestRegister } from '../../support/test-register.ts';

export const zone = 'Africa/Nairobi';
export const facility = { id: 'marula', name: 'Marula health centre' };

/** The register's own reading, over the test register's look at its tables. */
function databaseOf(register: TestRegister): Database {
  const database: Database = {
    query: (text, values) => register.rows(text, values) as Promise<never>,
    script: async () => {},
    seal: (text) => text,
    transaction: (work) => work(database),
    close: async () => {},
  };
  return database;
}

export async function monthIn(register: TestRegister, month: string): Promise<RegisterMonth> {
  const span = boundsOf(month, zone);
  if (span === null) throw new Error(`"${month}" is no month.`);
  return { facility, zone, month, precision: 'instant', ...(await readMonth(databaseOf(register), facility.id, span)) };
}

export async function playedMonth(name: string): Promise<RegisterMonth> {
  const path = new URL(`../../conversations/${name}.yaml`, import.meta.url);
  const script = readScript(name, readFileSync(path, 'utf8'));
  const desk = await openDesk({ worker: script.as, channel: 'sms', now: Date.parse(script.at) });
  const disagreements = await playScript(script, desk.phones);
  if (disagreements.length > 0) throw new Error(`${name} does not read as written: ${JSON.stringify(disagreements[0])}`);
  return monthIn(desk.register, script.at.slice(0, 7));
}

const noon = Date.UTC(2026, 10, 25, 9);
const hour = 3_600_000;

/** Every reference case as an examination of a baby of its own. */
export async function referenceMonth(): Promise<RegisterMonth> {
  const { interpret } = await published();
  const register = openTestRegister();
  await register.record(
    referenceCases.map(({ input: aCase }, at): ExaminationEntry => {
      const interpretation = interpret(aCase);
      const id = `+254700555101-case-${at}`;
      return {
        kind: 'examination',
        key: `examination:${id}:0`,
        baby: id,
        worker: '+254700555101',
        facility: facility.id,
        code: '7FK',
        at: noon + at,
        flow: 'first-day-exam',
        urgency: interpretation.urgency,
        version: '0123456789abcdef',
        facts: {
          sex: aCase.sex ?? null,
          bornAt: aCase.ageHours == null ? null : Math.round(noon - aCase.ageHours * hour),
          gestationDays: aCase.gestation ? aCase.gestation.weeks * 7 + (aCase.gestation.days ?? 0) : null,
          birthWeightGrams: aCase.birthWeightGrams ?? null,
          card: '12/26',
        },
        body: { examination: {}, case: aCase, interpretation },
      };
    }),
  );
  return monthIn(register, '2026-11');
}
