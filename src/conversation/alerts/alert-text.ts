// The text that tells a nurse of a baby, in SBAR order and fitted to two segments: who, where, since when and what is wrong;
// size and history; what was measured; whom to ring and how to take it. What does not fit is left out: history first, measures
// last, then all but the last of those who did not answer; a baby with more wrong than fits has the first of it and "+5".
// Next: src/on-call/sbar.ts.

import { DateTime } from 'luxon';
import type { Because, Case, Classification, Interpretation } from '../../clinical/protocol.ts';
import type { Book } from '../../dialog/book.ts';
import { babyPhrase, isMeasure, phraseOf, reasonsFor } from '../../dialog/phrases.ts';
import { type Say, say } from '../../dialog/reply.ts';
import { measure } from '../../messages/segments.ts';
import { handoverOf } from '../../on-call/sbar.ts';
import type { FollowUpParts } from '../follow-up-parts.ts';
import type { Facility } from '../ports.ts';

/** What a nurse is told of. */
export interface AlertNews {
  readonly code: string;
  readonly worker: string;
  readonly case: Case;
  readonly interpretation: Interpretation;
  /** Urgent classifications to tell of; none: nothing is urgent any more. */
  readonly news: readonly string[];
  /** True: what was found since the nurse was told of the baby. */
  readonly isUpdate: boolean;
  /** Epoch milliseconds. */
  readonly noticedAt: number;
  /** Names of those who were asked before and did not take it, first one first. */
  readonly tried: readonly string[];
}

const notKnown = say('verbatim', { text: '?' });
/** Segments that an alert may take; a script of 16 bits needs more for the same news. */
const mostSegments = { 'gsm-7': 2, 'ucs-2': 4 } as const;

export function alertText(
  told: AlertNews,
  facility: Pick<Facility, 'name' | 'zone'>,
  language: string,
  { published: { book }, speak }: Pick<FollowUpParts, 'published' | 'speak'>,
): string {
  const groupOf = (finding: string): string | undefined => book.findings.get(finding)?.group;
  const { situation, background, assessment } = handoverOf(told.case, told.interpretation, told.news, { isBox: book.isBox, groupOf });
  const details = [...(told.isUpdate ? [] : detailsOf('background', background, book)), ...detailsOf('assessment', assessment, book)];
  const byWeight = [...details].sort((a, b) => b.weight - a.weight);
  const key = told.news.length === 0 ? 'alert.eased' : told.isUpdate ? 'alert.update' : 'alert.text';

  const written = ({ reasons, kept, triedKept }: Fit): string => {
    const chosen = new Set(byWeight.slice(0, kept));
    const list = (part: Detail['part']): Say | string => {
      const phrases = details.filter((one) => one.part === part && chosen.has(one)).map(({ phrase }) => phrase);
      return phrases.length === 0 ? '' : say('alert.details', { list: phrases });
    };
    return speak(language, key, {
      code: told.code,
      baby: babyPhrase(told.case),
      facility: facility.name,
      time: timeOfDay(told.noticedAt, facility.zone),
      worker: told.worker,
      reasons: reasons.length === 0 ? notKnown : reasons,
      background: list('background'),
      assessment: list('assessment'),
      tried: triedKept === 0 ? '' : say('alert.tried', { list: shortened(told.tried, triedKept) }),
    })
      .replace(/ {2,}/g, ' ')
      .trim();
  };
  return firstThatFits(fitsOf(situation, details.length, told.tried.length, book), written);
}

interface Detail {
  readonly part: 'background' | 'assessment';
  readonly phrase: Say;
  /** Of two that do not both fit, the heavier stays. */
  readonly weight: number;
}

function detailsOf(part: Detail['part'], ones: readonly Because[], book: Book): Detail[] {
  return ones.flatMap((one) => {
    const phrase = phraseOf(one, book);
    const weight = isMeasure(one.finding, book) ? 2 : part === 'assessment' ? 1 : 0;
    return phrase === null ? [] : [{ part, phrase, weight }];
  });
}

interface Fit {
  readonly reasons: readonly Say[];
  readonly kept: number;
  readonly triedKept: number;
}

/** The ways to write it, the fullest first. */
function* fitsOf(situation: readonly Classification[], details: number, tried: number, book: Book): Generator<Fit> {
  const reasons = reasonsFor(situation, book);
  for (let kept = details; kept >= 0; kept -= 1) yield { reasons, kept, triedKept: tried };
  for (let triedKept = tried - 1; triedKept > 0; triedKept -= 1) yield { reasons, kept: 0, triedKept };
  const last = Math.min(tried, 1);
  for (let findings = findingsIn(situation) - 1; findings > 0; findings -= 1)
    yield { reasons: firstReasons(situation, findings, book), kept: 0, triedKept: last };
}

/** When nothing fits, the shortest. */
function firstThatFits(fits: Iterable<Fit>, written: (fit: Fit) => string): string {
  let text = '';
  for (const fit of fits) {
    text = written(fit);
    const { alphabet, segments } = measure(text);
    if (segments <= mostSegments[alphabet]) return text;
  }
  return text;
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
  return [...reasonsFor(first, book), say('verbatim', { text: `+${findingsIn(situation) - kept}` })];
}

/** The last so many, and how many there were before. */
function shortened(tried: readonly string[], kept: number): Say[] {
  const earlier = tried.length - kept;
  const names = tried.slice(-kept).map((name) => say('verbatim', { text: name }));
  return earlier === 0 ? names : [say('verbatim', { text: `+${earlier}` }), ...names];
}

function findingsIn(situation: readonly Classification[]): number {
  return new Set(situation.flatMap((one) => one.because.map(({ finding }) => finding))).size;
}

/** As the clock on the facility's wall shows it: 0935. */
function timeOfDay(at: number, zone: string): string {
  return DateTime.fromMillis(at, { zone }).toFormat('HHmm');
}
