// `pipit roster check|import|export FOLDER`: the coordinator's tables, looked through, brought into the register, and given back.
// Next: load-roster.ts, and src/register/roster.ts for what an import does.

import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeRoster } from '../authoring/write-roster.ts';
import { rosterStoreIn } from '../register/roster.ts';
import type { RosterChange } from '../register/roster-changes.ts';
import type { Config } from './config.ts';
import { readRosterFolder } from './load-roster.ts';
import { withRegister } from './register-database.ts';

type Print = (line: string) => void;

/** The exit code: 0 when nothing is wrong but warnings, 1 when something is. */
export function checkRoster(folder: string, print: Print): number {
  const { data, diagnostics, said, hasErrors } = readRosterFolder(folder);
  for (const one of said) print(`${one}\n`);
  const errors = diagnostics.filter(({ severity }) => severity === 'error').length;
  print(
    `${data.facilities.length} facilities, ${data.people.length} people, ${data.shifts.length} shifts: ${errors} errors, ${diagnostics.length - errors} warnings.`,
  );
  return hasErrors ? 1 : 0;
}

/** Whole or nothing: with an error in the folder nothing is changed. */
export async function importRoster(config: Config, folder: string, by: string, now: number, print: Print): Promise<number> {
  const { data, said, hasErrors } = readRosterFolder(folder);
  for (const one of said) print(`${one}\n`);
  if (hasErrors) {
    print('Nothing was imported.');
    return 1;
  }
  const changes = await withRegister(config, (database) => rosterStoreIn(database).import(data, by, now));
  for (const { kind, about, change } of changes) print(`${change} ${kind} ${about}`);
  print(changes.length === 0 ? 'Nothing has changed.' : `Imported: ${countsOf(changes)}. Servers take it over within seconds.`);
  return 0;
}

export async function exportRoster(config: Config, folder: string, print: Print): Promise<number> {
  const { number, data } = await withRegister(config, (database) => rosterStoreIn(database).read());
  if (number === 0) {
    print('The register holds no roster yet. Import one: pipit roster import FOLDER.');
    return 1;
  }
  const tables = Object.entries(writeRoster(data)).map(([name, text]) => ({ path: join(folder, `${name}.csv`), text }));
  const there = tables.find(({ path }) => existsSync(path));
  if (there !== undefined) {
    print(`${there.path} is there already and is left alone. Name another folder.`);
    return 1;
  }
  mkdirSync(folder, { recursive: true });
  for (const { path, text } of tables) writeFileSync(path, text);
  print(
    `Import ${number} is in ${folder}: ${data.facilities.length} facilities, ${data.people.length} people, ${data.shifts.length} shifts.`,
  );
  return 0;
}

function countsOf(changes: readonly RosterChange[]): string {
  const count = (change: RosterChange['change']): number => changes.filter((one) => one.change === change).length;
  return `${count('added')} added, ${count('changed')} changed, ${count('removed')} removed`;
}
