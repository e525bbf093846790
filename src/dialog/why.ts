// Why a result is what it is: for each classification that decided, what was found, the limit it was held against, the rows of
// the protocol and where they come from. Asked for with WHY; the nurse and the reviewer read the same.

import type { Because, Classification, Interpretation } from '../clinical/protocol.ts';
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
  const ages = one.id === 'well-baby' ? [] : one.because.flatMap((because) => ageLimit(because));
  const limit = shown.find((because) => because.finding !== age && because.limit !== undefined)?.limit;
  const sources = book.sourcesOf(one.rows);
  const values = {
    name: say(`classifications.${one.id}`),
    reasons: reasons.length > 0 ? [...reasons, ...(limit === undefined ? ages : [])] : say('why.looked-for'),
    rows: one.rows.join(' '),
    sources: sources.length > 0 ? sources.join(' ') : say('why.no-guideline'),
  };
  return limit === undefined
    ? say('why.plain', values)
    : say('why.limit', { ...values, limit: [say('verbatim', { text: limit }), ...ages] });
}

/** As reasons name it. */
const age = 'ageHours';

/** An age has no phrase of its own in a result, which names the baby with it; here it is what the rule held it against. */
function ageLimit({ finding, limit }: Because): Say[] {
  return finding === age && limit !== undefined ? [say('why.age', { limit })] : [];
}
