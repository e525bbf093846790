// A baby that the register knows is seen again: a contact that asks only what is not known of it, or a second look that goes
// on from its last examination. Each is an examination with an id of its own, so that two phones that see the same baby never
// write over one another.

import { type BabyFacts, fieldsOf } from './baby-facts.ts';
import type { Book, Caller } from './book.ts';
import { beginExamination, beginRecheck } from './examination.ts';
import type { Flow } from './flow.ts';
import type { FollowedBaby } from './followed.ts';
import { givenIn, previousWeight, weighedIn } from './looks-before.ts';
import type { Answer, Examination, LooksBefore } from './session.ts';
import { standingOf } from './standing.ts';

/** A contact in which what is known is answered already, under number 0, so that it is neither asked nor taken back. */
export function beginContactOf(baby: FollowedBaby, caller: Caller, book: Book, now: number): Examination {
  const flow = flowOf(book.flowFor.contact, book);
  const begun = beginExamination(flow.id, caller.phone, now, caller.message);
  const known = { ...fieldsOf(baby), ...(baby.last === null ? {} : toldBy(baby.last, caller, book, now)) };
  const answers = flow.steps.flatMap((step): Answer[] => {
    if (step.kind !== 'read') return [];
    const values = Object.fromEntries(
      step.fields.flatMap(({ of }): [string, string | number][] => {
        const value = known[of];
        return value === undefined ? [] : [[of, value]];
      }),
    );
    return Object.keys(values).length === 0 ? [] : [{ step: step.id, seal: step.seal, message: 0, values }];
  });
  const before = baby.last === null ? {} : givenIn(baby.last, standingOf(baby.last, caller, book, now).interpretation, book);
  return { ...begun, ...kept(before), baby: baby.id, code: baby.code, answers };
}

/** Looks again at what an examination asked to look at; the weight that it had is the previous one once a new one is known. */
export function lookAgain(last: Examination, caller: Caller, book: Book, now: number): Examination {
  const { gathered, interpretation } = standingOf(last, caller, book, now);
  const before = { ...givenIn(last, interpretation, book), ...weighedIn(last, gathered.known.get('weight')) };
  return { ...beginRecheck(last, book.flowFor.recheck), ...kept(before) };
}

function kept(before: LooksBefore): Pick<Examination, 'before'> {
  return Object.keys(before).length === 0 ? {} : { before };
}

/** The same of a baby of the register, in an examination with an id of its own. */
export function lookAgainAt(baby: FollowedBaby, last: Examination, caller: Caller, book: Book, now: number): Examination {
  const { id } = beginExamination(book.flowFor.recheck, caller.phone, now, caller.message);
  return { ...lookAgain(last, caller, book, now), id, baby: baby.id, code: baby.code, revision: 0 };
}

/** Every flow that it was answered in is published. */
export function isReadable({ flow, earlier }: Examination, book: Book): boolean {
  return [...earlier, flow].every((name) => book.flows.has(name));
}

type Fields = Readonly<Record<string, string | number>>;

/** What its last examination told of the baby itself, to the letter, and when it was weighed last. */
function toldBy(last: Examination, caller: Caller, book: Book, now: number): Fields {
  const { known } = standingOf(last, caller, book, now).gathered;
  const told: Record<string, string | number> = {};
  for (const of of fieldNames) {
    const value = known.get(of);
    if (typeof value === 'number' || typeof value === 'string') told[of] = value;
  }
  return { ...told, ...previousWeight(weighedIn(last, known.get('weight')), now) };
}

const fieldNames: readonly string[] = Object.keys(
  fieldsOf({ sex: 'girl', bornAt: 0, gestationDays: 0, birthWeightGrams: 0, card: '' } satisfies BabyFacts),
);

function flowOf(name: string, book: Book): Flow {
  const flow = book.flows.get(name);
  if (flow !== undefined) return flow;
  throw new Error(`No flow "${name}" is published. Publish it again, or name another one as a beginning.`);
}
