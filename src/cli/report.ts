// `pipit report`: the figures of the register per facility and week, and the texts that reached nobody.

import { maskPhone } from '../channels/mask.ts';
import type { Database } from '../register/database.ts';
import { type Figure, readFigures } from '../register/report/figures.ts';
import { readNotDelivered } from '../register/report/lost.ts';
import { fourWeeksWith, lastFourWeeks, type Period, periodOf } from '../register/report/period.ts';
import { rosterStoreIn } from '../register/roster.ts';
import type { Config } from './config.ts';
import { withRegister } from './register-database.ts';
import { writeTable } from './write-table.ts';

export interface ReportOptions {
  readonly from?: string;
  readonly until?: string;
  readonly facility?: string;
  readonly format: string;
  readonly notDelivered: boolean;
}

type Print = (text: string) => void;
const formats = ['text', 'csv', 'json'] as const;
const mostTexts = 1000;

/** The exit code. Errors: what was asked for cannot be, with what to give instead. */
export async function report(config: Config, options: ReportOptions, now: number, print: Print): Promise<number> {
  const format = formats.find((one) => one === options.format);
  if (format === undefined) throw new Error(`"${options.format}" is no format. Give one of: ${formats.join(', ')}.`);
  const period = periodFor(options, now);
  if (period === null) throw new Error('--from and --until must be days such as 2026-11-23, the first one not after the last.');
  return withRegister(config, async (database) => {
    const facility = options.facility ?? null;
    await refuseUnknown(database, facility);
    const lines = options.notDelivered ? await notDelivered(database, period, facility) : await figures(database, period, facility, now);
    if (format === 'json')
      print(`${JSON.stringify({ period, [options.notDelivered ? 'notDelivered' : 'figures']: lines.rows }, null, 2)}\n`);
    else if (format === 'csv') print(writeTable([lines.headings, ...lines.cells]));
    else print(lines.cells.length === 0 ? 'Nothing in this period.\n' : inColumns([lines.headings, ...lines.cells]));
    return 0;
  });
}

interface Lines {
  readonly headings: readonly string[];
  readonly cells: readonly (readonly string[])[];
  readonly rows: readonly unknown[];
}

/** One end alone means four weeks from there. */
function periodFor({ from, until }: ReportOptions, now: number): Period | null {
  if (from !== undefined && until !== undefined) return periodOf(from, until);
  if (from !== undefined) return fourWeeksWith('from', from);
  return until === undefined ? lastFourWeeks(now) : fourWeeksWith('until', until);
}

async function refuseUnknown(database: Database, facility: string | null): Promise<void> {
  const known = (await rosterStoreIn(database).read()).data.facilities.map(({ id }) => id);
  if (facility !== null && !known.includes(facility))
    throw new Error(`The roster has no facility "${facility}". It has: ${known.join(', ') || 'none, until a roster is imported'}.`);
}

async function figures(database: Database, period: Period, facility: string | null, now: number): Promise<Lines> {
  const rows = await readFigures(database, period, facility, now);
  return {
    headings: ['facility', 'week', 'figure', 'value'],
    cells: rows.map((one: Figure) => [one.facility ?? 'all', one.week ?? 'all', one.name, one.value === null ? '' : String(one.value)]),
    rows,
  };
}

async function notDelivered(database: Database, period: Period, facility: string | null): Promise<Lines> {
  const found = await readNotDelivered(database, period, facility, mostTexts + 1);
  if (found.length > mostTexts) throw new Error(`More than ${mostTexts} texts reached nobody. Give a shorter period, or one --facility.`);
  const rows = found.map((one) => ({
    ...one,
    at: new Date(one.at).toISOString(),
    recipient: maskPhone(one.recipient),
  }));
  return {
    headings: ['at', 'facility', 'recipient', 'urgent', 'state', 'attempts', 'reason'],
    cells: rows.map((one) => [
      one.at,
      one.facility,
      one.recipient,
      one.urgent ? 'urgent' : '',
      one.state,
      String(one.attempts),
      one.reason ?? '',
    ]),
    rows,
  };
}

function inColumns(lines: readonly (readonly string[])[]): string {
  const widths = (lines[0] ?? []).map((_, at) => Math.max(...lines.map((cells) => cells[at]?.length ?? 0)));
  return lines
    .map(
      (cells) =>
        `${cells
          .map((cell, at) => cell.padEnd(widths[at] ?? 0))
          .join('  ')
          .trimEnd()}\n`,
    )
    .join('');
}
