// An urgent text that could not be delivered, however often it was sent: the coordinators of whoever was to get it hear of it, and
// of as much of it as fits, so that they can ring. Which texts those are: src/register/lost-texts.ts.

import type { Alphabet } from '../messages/gsm7.ts';
import { measure } from '../messages/segments.ts';
import { nameOf } from './alerts/alert-chain.ts';
import { type FollowUpParts, type Recipient, recipient, textTo } from './follow-up-parts.ts';

import type { LostText, TextEntry } from './records.ts';

/** A script of 16 bits needs more for the same. */
const mostSegments: Readonly<Record<Alphabet, number>> = { 'gsm-7': 2, 'ucs-2': 4 };

/** Nobody, when no coordinator but the one who was to get it is over that number. */
export function tellOfLost(lost: LostText, now: number, parts: FollowUpParts): TextEntry[] {
  const facility = parts.roster.facilityOf(lost.to);
  if (facility === undefined) return [];
  const coordinators = parts.roster.coordinators(facility.id).filter(({ phone }) => phone !== lost.to);
  return [...new Set(coordinators.map(({ phone }) => phone))].map((phone) => fitted(lost, recipient(phone, parts), now, parts));
}

function fitted({ key, to, text, baby }: LostText, coordinator: Recipient, now: number, parts: FollowUpParts): TextEntry {
  const about = { key: `lost:${key}:${coordinator.phone}`, at: now, urgent: true, ...(baby === null ? {} : { baby }) };
  const words = text.split(' ');
  const written = (kept: number): TextEntry => {
    const shown = kept < words.length ? `${words.slice(0, kept).join(' ')} ..` : text;
    return textTo(coordinator, about, 'alert.not-delivered', { nurse: nameOf(to, parts.roster), phone: to, text: shown }, parts);
  };
  for (let kept = words.length; kept > 1; kept -= 1) {
    const told = written(kept);
    const { alphabet, segments } = measure(told.text);
    if (segments <= mostSegments[alphabet]) return told;
  }
  return written(1);
}
