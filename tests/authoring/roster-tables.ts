// Tables of a roster for the tests beside: invented people at invented places, without a fault, and one cell at a time to spoil.
// The place that a diagnostic must point at stands between « and ».

import type { Diagnostic, Range } from '../../src/authoring/diagnostic.ts';
import { readRoster } from '../../src/authoring/read-roster.ts';
import type { RosterData } from '../../src/conversation/roster.ts';
import { marked } from './marked-yaml.ts';

export type Texts = Readonly<Record<'facilities' | 'people' | 'rota' | 'leave', string>>;

export const sound: Texts = {
  facilities: `id,name,zone,phone,above,refers-to,travel-minutes
marula,Marula HC,Africa/Nairobi,+254700555012,baobab,baobab,45
baobab,Baobab Hospital,Africa/Nairobi,+254700555021,,,
`,
  people: `phone,name,roles,facility,language,may-inject
+254700555101,Akinyi,worker,marula,en,yes
+254700555012,Wanjiru,nurse worker,marula,en,no
+254700555021,Njeri,nurse,baobab,sw,
+254700555030,Rose,coordinator,baobab,en,
`,
  rota: `facility,days,from,to,phone,order
marula,mon-fri,08:00,17:00,+254700555012,1
baobab,daily,07:00,19:00,+254700555021,1
baobab,daily,19:00,07:00,+254700555021,1
`,
  leave: `phone,from,until,instead
+254700555012,2026-12-24,2026-12-26,+254700555021
`,
};

export interface Reading {
  readonly data: RosterData;
  readonly faults: readonly Diagnostic[];
}

export function read(texts: Texts): Reading {
  const faults: Diagnostic[] = [];
  const source = (table: keyof Texts) => ({ name: `${table}.csv`, text: texts[table] });
  const tables = { facilities: source('facilities'), people: source('people'), rota: source('rota'), leave: source('leave') };
  return { data: readRoster(tables, (fault) => faults.push(fault)), faults };
}

/** The sound roster with something in one table replaced. */
export function spoilt(
  table: keyof Texts,
  from: string,
  to: string,
): { readonly texts: Texts; readonly file: string; readonly range: Range } {
  if (!sound[table].includes(from)) throw new Error(`The sound ${table} hold no "${from}".`);
  const { text, range } = marked(sound[table].replace(from, to));
  return { texts: { ...sound, [table]: text }, file: `${table}.csv`, range };
}
