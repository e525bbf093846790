// A programme of invented people for the end-to-end tests and the bench: a roster with as many workers as are asked for,
// one nurse or a few, and the English wording alone unless it is said, so that what a reply says is known. Next: end-to-end-server.ts.

import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { temporaryFolder } from './temporary-folder.ts';

export const NURSE = '+254700555012';
/** On call after her, in this order, where a programme has more than one nurse. */
const furtherNurses = ['+254700555013', '+254700555014'];
export const ACCOUNT = 'AC00000000000000000000000000000000';
export const NUMBER_OF_OURS = '+254700000999';

const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Programme {
  /** Environment of a server that serves this programme. */
  readonly environment: Readonly<Record<string, string>>;
  /** A worker's phone; each number, from 0, is another worker. */
  worker(number: number): string;
  /** In the order in which they are asked. */
  readonly nurses: readonly string[];
  remove(): void;
}

/** Takes languages: of the workers in turn. */
export function makeProgramme(workers: number, manyNurses = 1, languages: readonly string[] = ['en']): Programme {
  const folder = temporaryFolder();
  const locales = join(folder.path, 'locales');
  mkdirSync(locales);
  for (const language of new Set(['en', ...languages])) symlinkSync(join(root, 'locales', language), join(locales, language));
  const worker = (number: number): string => `+2547006${String(number).padStart(5, '0')}`;
  const people = Array.from(
    { length: workers },
    (_, number) => `${worker(number)},Worker ${number},worker,marula,${languages[number % languages.length]}`,
  );
  const roster = join(folder.path, 'roster');
  mkdirSync(roster);
  const write = (table: string, lines: readonly string[]): void => writeFileSync(join(roster, `${table}.csv`), `${lines.join('\n')}\n`);
  write('facilities', ['id,name,zone,phone', `marula,Marula HC,Africa/Nairobi,${NURSE}`]);
  const nurses = [NURSE, ...furtherNurses].slice(0, manyNurses);
  const names = ['Wanjiru', 'Achieng', 'Chebet'];
  const nursePeople = nurses.map((phone, at) => `${phone},Nurse ${names[at]},nurse,marula,en`);
  write('people', ['phone,name,roles,facility,language', ...nursePeople, ...people]);
  write('rota', ['facility,days,from,to,phone,order', ...nurses.map((phone, at) => `marula,daily,00:00,24:00,${phone},${at + 1}`)]);
  return {
    environment: { PIPIT_LOCALES: locales, PIPIT_ROSTER: roster, PIPIT_DATA: join(folder.path, 'data'), PIPIT_ALLOW_DRAFTS: '1' },
    worker,
    nurses,
    remove: folder.remove,
  };
}
