// What must outlast a session leaves the core as facts with keys of their own; written once however often they arrive.

import type { Case, Interpretation } from '../clinical/protocol.ts';
import type { Book, Caller } from './book.ts';
import type { Standing } from './lookup.ts';
import type { Answer, Examination } from './session.ts';

interface FactBody {
  readonly examination: string;
  readonly code: string;
  readonly worker: string;
  readonly facility: string;
  readonly at: number;
  readonly case: Case;
  readonly interpretation: Interpretation;
  /** Hash of the flows, protocol and wording in force. */
  readonly version: string;
}

export type Fact =
  | ({ readonly kind: 'examination'; readonly key: string; readonly answers: readonly Answer[] } & FactBody)
  /** The first alert of a baby, or what was found since; `news`: the urgent classifications that it tells of. */
  | ({ readonly kind: 'alert'; readonly key: string; readonly isUpdate: boolean; readonly news: readonly string[] } & FactBody);

export function examinationFact(examination: Examination, standing: Standing, caller: Caller, book: Book, now: number): Fact {
  return {
    kind: 'examination',
    key: `examination:${examination.id}:${examination.revision}`,
    answers: examination.answers,
    ...body(examination, standing, caller, book, now),
  };
}

/** Stands in `alerted` where the nurse was told that nothing is urgent any more. */
const eased = 'eased';

/**
 * An alert when there is an urgent classification that the nurse was not told of, or when an answer taken back leaves none;
 * and the examination that remembers it.
 */
export function alertFact(
  examination: Examination,
  standing: Standing,
  caller: Caller,
  book: Book,
  now: number,
): { examination: Examination; facts: Fact[] } {
  const urgent = standing.interpretation.classifications.filter((one) => one.urgency === 'urgent').map((one) => one.id);
  const toldSince = examination.alerted.slice(examination.alerted.lastIndexOf(eased) + 1);
  const news = urgent.filter((id) => !toldSince.includes(id));
  const isEased = urgent.length === 0 && toldSince.length > 0;
  if (news.length === 0 && !isEased) return { examination, facts: [] };
  const isUpdate = examination.alerted.length > 0;
  const alerted = [...examination.alerted, ...(isEased ? [eased] : news)];
  const key = isUpdate ? `alert:${examination.id}:${alerted.length}` : `alert:${examination.id}`;
  return {
    examination: { ...examination, alerted },
    facts: [{ kind: 'alert', key, isUpdate, news, ...body(examination, standing, caller, book, now) }],
  };
}

function body(examination: Examination, { gathered, interpretation }: Standing, caller: Caller, book: Book, now: number): FactBody {
  return {
    examination: examination.id,
    code: examination.code,
    worker: caller.phone,
    facility: caller.facility,
    at: now,
    case: gathered.case,
    interpretation,
    version: book.version,
  };
}
