// The text that tells a nurse of a baby, fitted to two segments: who, where, what is wrong, then what else is known as far
// as it fits, and always whom to ring and how to take it.

import type { Book } from '../dialog/book.ts';
import type { Fact } from '../dialog/facts.ts';
import { babyPhrase, phraseOf, reasonsFor } from '../dialog/phrases.ts';
import { type Say, say as saying } from '../dialog/reply.ts';
import { say } from '../messages/catalogue.ts';
import { toPlain } from '../messages/gsm7.ts';
import { measure } from '../messages/segments.ts';
import { handoverOf } from '../on-call/sbar.ts';
import type { Voice } from './compose.ts';

type AlertFact = Extract<Fact, { kind: 'alert' }>;

/** Segments that an alert may take; a script of 16 bits needs more for the same news. */
const mostSegments = { 'gsm-7': 2, 'ucs-2': 4 } as const;

export function alertText(fact: AlertFact, facilityName: string, book: Book, voice: Omit<Voice, 'screen'>): string {
  const handover = handoverOf(fact.case, fact.interpretation, fact.news, book.isBox);
  const named = (ones: typeof handover.background): Say[] => ones.flatMap((one) => phraseOf(one, book) ?? []);
  const details = [...named(handover.assessment), ...(fact.isUpdate ? [] : named(handover.background))];
  const isEased = handover.situation.length === 0;
  const key = isEased ? 'alert.eased' : fact.isUpdate ? 'alert.update' : 'alert.text';
  const values = {
    code: fact.code,
    baby: babyPhrase(fact.case),
    facility: facilityName,
    reasons: reasonsFor(handover.situation, book),
    worker: fact.worker,
  };
  const written = (kept: number): string =>
    toPlain(say(voice.catalogues, voice.language, key, { ...values, details: kept === 0 ? '' : saying('alert.details', { list: details.slice(0, kept) }) })).replace(/ {2,}/g, ' ').trim();
  for (let kept = details.length; kept > 0; kept -= 1) {
    const text = written(kept);
    const { alphabet, segments } = measure(text);
    if (segments <= mostSegments[alphabet]) return text;
  }
  return written(0);
}
