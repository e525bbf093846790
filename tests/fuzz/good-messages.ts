// Messages that phones really send: all of the written conversations, and amounts, times and marks in the forms that readers take.
// What is fuzzed begins with these, so that it gets behind the first gate. Next: mutate.ts.

import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Chance } from '../simulation/chance.ts';

const folder = new URL('../conversations/', import.meta.url);

interface Written {
  readonly turns: readonly { readonly send?: string; readonly nurse?: string }[];
}

/** Each conversation as its texts, in order. */
export const conversations: readonly (readonly string[])[] = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .sort()
  .map((name) =>
    (parse(readFileSync(new URL(name, folder), 'utf8')) as Written).turns.flatMap(({ send }) => (send === undefined ? [] : [send])),
  )
  .filter((texts) => texts.length > 0);

export const messages: readonly string[] = [...new Set(conversations.flat())];

/** Mostly one from the first to the last; with a fraction and a unit now and then. */
export function anAmount(chance: Chance, low = 0, high = 9_999): string {
  const whole = chance.is(0.8) ? chance.whole(Math.ceil(low), Math.floor(high)) : chance.whole(0, 9_999);
  const fraction = chance.is(0.3) ? `${chance.pick(['.', ',', '*'])}${chance.whole(0, 99)}` : '';
  const unit = chance.is(0.5) ? '' : aUnit(chance);
  return `${whole}${fraction}${unit}`;
}

function aUnit(chance: Chance): string {
  return chance.pick([
    '',
    '',
    '',
    'c',
    ' c',
    'f',
    'g',
    'kg',
    ' kg',
    '/min',
    '/30s',
    '/60',
    '/ 30 s',
    ' cm',
    'mmol/l',
    '%',
    'min',
    'h',
    ' g',
  ]);
}

export function aTime(chance: Chance): string {
  const [hour, minute] = [chance.whole(0, 25), String(chance.whole(0, 61)).padStart(2, '0')];
  const clock = chance.pick([
    `${hour}${minute}`,
    `${hour}:${minute}`,
    `${hour}h${minute}`,
    `${hour}.${minute}`,
    `${hour}${minute}h`,
    `${hour} pm`,
    `${hour}am`,
  ]);
  const day = chance.pick(['', '', 'today ', 'yesterday ', '24/11 ', '24.11.2026 ', '2026-11-24 ', '30/2 ', '4.11 ', '1*12*26 ']);
  const ago = `${hour}${chance.pick(['h', ' h', 'min', 'd', ' days', '.5h', `h${minute}`, `h ${minute} min`])}${chance.pick(['', ' ago'])}`;
  return chance.is(0.4) ? ago : day + clock;
}

export function marks(chance: Chance): string {
  const digits = Array.from({ length: chance.whole(1, 4) }, () => chance.whole(0, 9));
  return digits.join(chance.pick(['', ' ', ',', '*', '.', '&', '/', '+', '-', ' not ', '\n']));
}

export function weeks(chance: Chance): string {
  const [full, days] = [chance.whole(20, 46), chance.whole(0, 8)];
  return chance.pick([
    `${full}`,
    `${full}w`,
    `${full}+${days}`,
    `${full}/40`,
    `${full}w${days}d`,
    `${full}w ${days}d`,
    `${full}+${days}/7`,
    `LMP ${days}/2`,
    `EDD 2${days}/11`,
  ]);
}

/** Labels, regions and values in any order. Takes labels: those that a language has. */
export function aReport(chance: Chance, labels: readonly string[]): string {
  const values = [anAmount, aTime, marks, weeks];
  return Array.from({ length: chance.whole(1, 8) }, () =>
    chance.is(0.7) ? `${chance.pick(labels)}${chance.pick(['', ' ', ':', '='])}${chance.pick(values)(chance)}` : chance.pick(messages),
  ).join(' ');
}
