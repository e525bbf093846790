// A programme of invented people for the end-to-end tests and the bench: a roster with as many workers as are asked for,
// one nurse, and the English wording alone, so that what a reply says is known. Next: end-to-end-server.ts.

import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { temporaryFolder } from './temporary-folder.ts';

export const NURSE = '+254700555012';
export const ACCOUNT = 'AC00000000000000000000000000000000';
export const NUMBER_OF_OURS = '+254700000999';

const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Programme {
  /** Environment of a server that serves this programme. */
  readonly environment: Readonly<Record<string, string>>;
  /** A worker's phone; each number, from 0, is another worker. */
  worker(number: number): string;
  remove(): void;
}

export function makeProgramme(workers: number): Programme {
  const folder = temporaryFolder();
  const locales = join(folder.path, 'locales');
  mkdirSync(locales);
  symlinkSync(join(root, 'locales', 'en'), join(locales, 'en'));
  const worker = (number: number): string => `+2547006${String(number).padStart(5, '0')}`;
  const people = Array.from({ length: workers }, (_, number) => person(worker(number), `Worker ${number}`, 'worker'));
  const roster = join(folder.path, 'roster.yaml');
  writeFileSync(
    roster,
    [
      'facilities:',
      `  marula: { name: Marula HC, zone: Africa/Nairobi, nurse: "${NURSE}" }`,
      'people:',
      ...people,
      person(NURSE, 'Nurse Wanjiru', 'nurse'),
    ].join('\n'),
  );
  return {
    environment: { PIPIT_LOCALES: locales, PIPIT_ROSTER: roster, PIPIT_DATA: join(folder.path, 'data'), PIPIT_ALLOW_DRAFTS: '1' },
    worker,
    remove: folder.remove,
  };
}

const person = (phone: string, name: string, role: string): string =>
  `  - { phone: "${phone}", name: ${name}, roles: [${role}], facility: marula, language: en, may-inject: no }`;
