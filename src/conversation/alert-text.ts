// The text that tells a nurse of a baby, fitted to two segments: who, where, what is wrong, then what else is known as far
// as it fits, and always whom to ring and how to take it. A baby with more wrong than fits has the first of it and "+5".

import type { Classification } from '../clinical/protocol.ts';
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
  const values = { code: fact.code, baby: babyPhrase(fact.case), facility: facilityName, worker: fact.worker };
  const written = (reasons: readonly Say[], kept: number): string =>
    toPlain(
      say(voice.catalogues, voice.language, key, {
        ...values,
        reasons,
        details: kept === 0 ? '' : saying('alert.details', { list: details.slice(0, kept) }),
      }),
    )
      .replace(/ {2,}/g, ' ')
      .trim();
  const fits = (text: string): boolean => {
    const { alphabet, segments } = measure(text);
    return segments <= mostSegments[alphabet];
  };
  const reasons = reasonsFor(handover.situation, book);
  for (let kept = details.length; kept >= 0; kept -= 1) {
    const text = written(reasons, kept);
    if (fits(text)) return text;
  }
  const all = findingsIn(handover.situation);
  for (let kept = all - 1; kept > 1; kept -= 1) {
    const text = written(firstReasons(handover.situation, kept, book), 0);
    if (fits(text)) return text;
  }
  return written(firstReasons(handover.situation, 1, book), 0);
}

/** The reasons with the first so many findings, and how many findings more there are. */
function firstReasons(situation: readonly Classification[], kept: number, book: Book): Say[] {
  const said = new Set<string>();
  const first = situation.map((one) => ({
    ...one,
    because: one.because.filter(({ finding }) => {
      if (said.size < kept) said.add(finding);
      return said.has(finding);
    }),
  }));
  return [...reasonsFor(first, book), saying('verbatim', { text: `+${findingsIn(situation) - kept}` })];
}

function findingsIn(situation: readonly Classification[]): number {
  return new Set(situation.flatMap((one) => one.because.map(({ finding }) => finding))).size;
}
