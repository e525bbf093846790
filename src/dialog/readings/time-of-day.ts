// A time on the clock: 0430, 430, 4:30, 4.30, 4h30, 0430h, 4:30 pm, 4pm, 2400. Which day it was is for time.ts.

import { isWord, type Words } from './words.ts';

export interface TimeOfDay {
  /** 0 to 24; 24 is the midnight at the day's end. */
  readonly hour: number;
  readonly minute: number;
  readonly used: number;
}

const apart = /^(\d{1,2})([:.,*]|\D{1,12}?)(\d{2})(\D{0,12})$/u;
const together = /^(\d{1,2})(\d{2})(\D{0,12})$/u;
const hourAlone = /^(\d{1,2})(\D{0,12})$/u;

/** The time of day that the pieces begin with; null when there is none. */
export function readTimeOfDay([first = '', second]: readonly string[], words: Words): TimeOfDay | null {
  const [, hours, mark = '', minutes = '', after = ''] = apart.exec(first) ?? [];
  if (hours !== undefined && (/^[:.,*]$/.test(mark) || isWord(words, 'hours', mark))) return timeOf(hours, minutes, after, second, words);
  const [, hour, minute = '', word = ''] = together.exec(first) ?? [];
  if (hour !== undefined) return timeOf(hour, minute, word, second, words);
  const [, alone, half = ''] = hourAlone.exec(first) ?? [];
  const saysHalf = halfOf(half, words) !== null || (half === '' && halfOf(second ?? '', words) !== null);
  return alone !== undefined && saysHalf ? timeOf(alone, '00', half, second, words) : null;
}

function timeOf(hours: string, minutes: string, after: string, next: string | undefined, words: Words): TimeOfDay | null {
  const apartHalf = after === '' && next !== undefined ? halfOf(next, words) : null;
  const half = apartHalf ?? halfOf(after, words);
  if (after !== '' && half === null && !isWord(words, 'hours', after)) return null;
  let hour = Number(hours);
  if (half === 'pm' && hour < 12) hour += 12;
  if (half === 'am' && hour === 12) hour = 0;
  const minute = Number(minutes);
  if (minute > 59 || hour > 24 || (hour === 24 && minute > 0)) return null;
  return { hour, minute, used: apartHalf === null ? 1 : 2 };
}

function halfOf(word: string, words: Words): 'am' | 'pm' | null {
  return isWord(words, 'am', word) ? 'am' : isWord(words, 'pm', word) ? 'pm' : null;
}
