// Reads a length of time as the protocol writes it: PT30M, PT12H, P2D. Whole minutes come back.

import { minutesOf } from '../clinical/duration.ts';
import { complain, type Place, type Report, textOf } from './yaml-source.ts';

const written = /^P(?=\d|T\d)(\d+D)?(T(?=\d)(\d+H)?(\d+M)?)?$/;

/** Null and reported when it is no length of time, or shorter than `least`: what comes at once, again and again, is no time. */
export function readMinutes(place: Place, least: number, report: Report): number | null {
  const text = textOf(place, report);
  if (text === null) return null;
  const minutes = written.test(text) ? minutesOf(text) : -1;
  if (minutes >= least) return minutes;
  report(
    complain(
      place,
      place.range,
      'follow-up/not-a-time',
      minutes < 0 ? `"${text}" is not a length of time.` : `"${text}" is no time at all.`,
      'The phone would not know when to ask.',
      'Write it like PT30M (30 minutes), PT12H (12 hours) or P2D (2 days).',
    ),
  );
  return null;
}
