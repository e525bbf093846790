// The register as a table: what a coordinator reads in it, in each language, and what a de-identified one no longer holds.

import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { writeTable } from '../../../src/cli/write-table.ts';
import { bindBook } from '../../../src/conversation/book.ts';
import { say } from '../../../src/messages/catalogue.ts';
import { deIdentify } from '../../../src/register/export/de-identify.ts';
import { boundsOf, type RegisterMonth } from '../../../src/register/export/month.ts';
import { columns, tableOf } from '../../../src/register/export/table.ts';
import { published } from '../../support/desk.ts';
import { playedMonth } from './months.ts';

const secret = 'a secret for tests only';

async function table(month: RegisterMonth, language = 'en'): Promise<string[][]> {
  const files = await published();
  const { findings, has, isBox } = bindBook(files);
  const speak = (key: string, values?: Parameters<typeof say>[3]): string => say(files.catalogues, language, key, values);
  return tableOf(month, { findings, has, isBox, speak, facilityName: (id) => id, workerName: (phone) => `worker ${phone}` });
}

/** The cells of the last line by column. */
async function lastLine(month: RegisterMonth, language?: string): Promise<Record<string, string>> {
  const line = (await table(month, language)).at(-1) ?? [];
  return Object.fromEntries(columns.map((column, at) => [column, line[at] ?? '']));
}

describe('the table of a month', () => {
  it('says what it is, has a heading for each column, and a line for each examination', async () => {
    const month = await playedMonth('normal-girl');
    const [title, heading, ...lines] = await table(month);
    expect(title?.[0]).toBe(`Newborn examinations, Marula health centre, ${month.month}. Protocol ${month.examinations[0]?.version}`);
    expect(heading).toHaveLength(columns.length);
    expect(lines).toHaveLength(month.examinations.length);
    expect(lines.every((line) => line.length === columns.length)).toBe(true);
  });

  it('tells a well baby at the time of the facility', async () => {
    const month = await playedMonth('normal-girl');
    const line = await lastLine(month);
    // Nairobi is three hours ahead of UTC all year (tz database).
    const there = new Date((month.examinations[0]?.at ?? 0) + 3 * 3_600_000).toISOString();
    expect(line).toMatchObject({ date: there.slice(0, 10), time: there.slice(11, 16), sex: 'girl', urgency: 'well', 'danger-signs': '' });
    expect(line['next-check']).toMatch(/^\d{4}-\d\d-\d\d \d\d:\d\d$/);
  });

  it('keeps an urgent baby whose examination was never finished', async () => {
    const line = await lastLine(await playedMonth('danger-fever'));
    expect(line).toMatchObject({ urgency: 'REFER NOW', check: 'not finished' });
    expect(line['danger-signs']).not.toBe('');
    expect(line['sent-to']).not.toBe('');
  });

  it.each(['en', 'fr', 'sw', 'hi'])('has all words in %s', async (language) => {
    const month = await playedMonth('danger-fever');
    const [, heading] = await table(month, language);
    expect(new Set(heading).size).toBe(columns.length);
    if (language !== 'en') expect(heading).not.toEqual((await table(month))[1]);
  });
});

describe('a de-identified month', () => {
  it('holds no phone, code, card, name, time of day or id of the register, in any cell or resource', async () => {
    const month = await playedMonth('danger-fever');
    const hidden = deIdentify(month, secret, 20);
    const text = JSON.stringify([hidden, await table(hidden)]);
    for (const one of month.examinations) {
      for (const id of [one.key, one.baby, one.worker ?? '?', `"${one.code}"`, String(one.at)]) expect(text).not.toContain(id);
    }
    expect(text).not.toMatch(/\+?254700555/);
    expect(text).not.toContain('Marula');
    expect((await table(hidden))[0]?.[0]).toContain('facility not named');
  });

  it('keeps one baby one baby under one secret, and another under another', async () => {
    const month = await playedMonth('danger-fever');
    const ids = (key: string) => deIdentify(month, key, 20).babies.map(({ id }) => id);
    expect(ids(secret)).toEqual(ids(secret));
    expect(ids(secret)).not.toEqual(ids(`${secret}!`));
    const hidden = deIdentify(month, secret, 20);
    expect(hidden.alerts.map(({ baby }) => baby)).toEqual(hidden.babies.map(({ id }) => id));
  });

  it('moves every instant to the Monday of its week at the facility', async () => {
    const hidden = deIdentify(await playedMonth('danger-fever'), secret, 20);
    const instants = [...hidden.examinations, ...hidden.alerts, ...hidden.referrals, ...hidden.texts].map(({ at }) => at);
    const there = instants.map((at) => new Date(at + 3 * 3_600_000));
    expect(there.every((day) => day.getUTCDay() === 1 && day.toISOString().endsWith('T00:00:00.000Z'))).toBe(true);
  });

  it('names the facility from the number of births that the programme chose', async () => {
    const month = await playedMonth('danger-fever');
    const at = month.examinations[0]?.at ?? 0;
    const births = (count: number): RegisterMonth => ({
      ...month,
      babies: Array.from({ length: count }, (_, place) => ({
        ...{ id: `baby-${place}`, code: null, sex: null, bornAt: at, gestationDays: null, birthWeightGrams: null, card: null },
        hasDied: false,
      })),
    });
    expect(deIdentify(births(19), secret, 20).facility).toBeNull();
    expect(deIdentify(births(20), secret, 20).facility).toEqual(month.facility);
  });
});

describe('the file of a table', () => {
  it('begins with the mark by which a spreadsheet knows UTF-8, and reads back as it was', () => {
    const text = writeTable([['शिशु'], ['a, "b"', 'c\nd']]);
    expect(text.startsWith('\uFEFF')).toBe(true);
    expect(parse(text, { bom: true, relax_column_count: true })).toEqual([['शिशु'], ['a, "b"', 'c\nd']]);
  });

  // OWASP, CSV injection: the signs that begin a formula.
  it.each(['=1+1', '+254700', '-2', '@SUM(A1)', '\t=1', '\r=1'])('runs %j as no formula', (cell) => {
    expect(parse(writeTable([[cell]]), { bom: true })).toEqual([[`'${cell}`]]);
  });
});

describe('the bounds of a month', () => {
  it('are midnights of the facility', () => {
    expect(boundsOf('2026-11', 'Africa/Nairobi')).toEqual({ from: Date.UTC(2026, 9, 31, 21), until: Date.UTC(2026, 10, 30, 21) });
    expect(boundsOf('2026-12', 'Asia/Kolkata')).toEqual({ from: Date.UTC(2026, 10, 30, 18, 30), until: Date.UTC(2026, 11, 31, 18, 30) });
  });

  it.each(['2026-13', '2026-1', 'november', '', '2026-11-01'])('are none for %j', (month) => {
    expect(boundsOf(month, 'Africa/Nairobi')).toBeNull();
  });
});
