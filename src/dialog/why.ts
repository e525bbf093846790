// Why a result is what it is: for each classification that decided, what was found, the limit it was held against, the rows of
// the protocol and where they come from. Asked for with WHY; the nurse and the reviewer read the same.

import type { Classification, Interpretation } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import { isMeasure, phraseOf } from './phrases.ts';
import { type Say, say } from './reply.ts';

/** The deciding classifications, most urgent first; of a well baby, what was read as normal. */
export function whyLines(interpretation: Interpretation, book: Book): Say[] {
  const { urgency, classifications } = interpretation;
  const deciding = classifications.filter((one) => one.urgency === urgency);
  const lines = (deciding.length > 0 ? deciding : classifications).map((one) => whyLine(one, book));
  return lines.length > 0 ? lines : [say('why.nothing')];
}

function whyLine(one: Classification, book: Book): Say {
  // Of a well baby only what was measured is named: all that was looked for and not seen would fill pages.
  const shown = one.id === 'well-baby' ? one.because.filter((because) => isMeasure(because.finding, book)) : one.because;
  const reasons = shown.flatMap((because) => phraseOf(because, book) ?? []);
  const limit = one.because.find((because) => because.limit !== undefined)?.limit;
  const sources = book.sourcesOf(one.rows);
  const values = {
    name: say(`classifications.${one.id}`),
    reasons: reasons.length > 0 ? reasons : say('why.looked-for'),
    rows: one.rows.join(' '),
    sources: sources.length > 0 ? sources.join(' ') : say('why.no-guideline'),
  };
  return limit === undefined ? say('why.plain', values) : say('why.limit', { ...values, limit });
}
