// Reads the roster from its folder, four tables. A roster with a fault in it is not used at all: a person left out would be turned
// away. Next: roster.ts, which brings it into the register.

import { existsSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { type Diagnostic, renderDiagnostic, sortDiagnostics } from '../authoring/diagnostic.ts';
import { type RosterTables, readRoster } from '../authoring/read-roster.ts';
import type { SourceFile } from '../authoring/yaml-source.ts';
import type { RosterData } from '../conversation/roster.ts';

export interface ReadFolder {
  readonly data: RosterData;
  readonly diagnostics: readonly Diagnostic[];
  /** What was found, as a coordinator reads it, one text a fault. */
  readonly said: readonly string[];
  readonly hasErrors: boolean;
}

/** Columns of the tables that may be left out. */
const withoutRows = { rota: 'facility,days,from,to,phone,order\n', leave: 'phone,from,until,instead\n' } as const;

/** Errors: there is no such folder, or it holds no people or facilities. */
export function readRosterFolder(folder: string): ReadFolder {
  const tables: RosterTables = {
    facilities: tableIn(folder, 'facilities'),
    people: tableIn(folder, 'people'),
    rota: tableIn(folder, 'rota', withoutRows.rota),
    leave: tableIn(folder, 'leave', withoutRows.leave),
  };
  const faults: Diagnostic[] = [];
  const data = readRoster(tables, (fault) => faults.push(fault));
  const texts = new Map(Object.values<SourceFile>({ ...tables }).map(({ name, text }) => [name, text]));
  texts.set(tables.people.name, withoutPins(tables.people.text));
  const diagnostics = sortDiagnostics(faults);
  return {
    data,
    diagnostics,
    said: diagnostics.map((fault) => renderDiagnostic(fault, texts.get(fault.file))),
    hasErrors: diagnostics.some(({ severity }) => severity === 'error'),
  };
}

/** Errors: whatever is wrong with it, each fault with its remedy, as one Error. */
export function loadRoster(folder: string): RosterData {
  const { data, diagnostics, said, hasErrors } = readRosterFolder(folder);
  if (!hasErrors) return data;
  const errors = said.filter((_, index) => diagnostics[index]?.severity === 'error');
  throw new Error(`The roster in ${folder} cannot be used.\n${errors.join('\n')}`);
}

/** As it may be shown, and stand in the log of a server that cannot start: digits of the length of a PIN are hidden. */
function withoutPins(text: string): string {
  return text.replace(/(?<![^,;\t"'\s])\d{4,8}(?![^,;\t"'\s])/g, (digits) => '*'.repeat(digits.length));
}

function tableIn(folder: string, table: string, instead?: string): SourceFile {
  const path = join(folder, `${table}.csv`);
  const name = `${basename(folder)}/${table}.csv`;
  if (existsSync(path)) return { name, text: readFileSync(path, 'utf8').replace(/^\uFEFF/, '') };
  if (instead !== undefined) return { name, text: instead };
  throw new Error(`${path} is not there. A roster is a folder with facilities.csv, people.csv, rota.csv and leave.csv; see flows/demo.`);
}
