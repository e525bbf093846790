// A message taken as the answer to the question that stands: read, stored, answered at once where it is abnormal, asked
// back where it is hard to believe, and refused in words that say what to send.

import { openFields } from './ask.ts';
import { answeredStep, askedOf } from './asked.ts';
import { type Book, type Caller, languageOf } from './book.ts';
import { doseLines } from './dose-lines.ts';
import { askBack, doubtPhrases, stepInDoubt, stepReading, stillDoubted } from './doubt.ts';
import { addAnswer, beginTwin, reopen } from './examination.ts';
import { alertFact } from './facts.ts';
import type { MarkStep, Step } from './flow.ts';
import { echoed, missed, missesBeforeNurse, offeredStep, proceed, settled, showMenu, type Turn } from './proceed.ts';
import { readAnswer } from './read-answer.ts';
import { ageReadBack, readBack } from './read-back.ts';
import type { Context } from './read-field.ts';
import { type Reported, takeReported } from './readings/reported.ts';
import { type Say, say } from './reply.ts';
import { isOpenedBy, type Region, regionStep, sexIn, sexKnown, takeRegions, unplaced } from './reported-regions.ts';
import type { Examination, Session } from './session.ts';
import { type Position, standingOf } from './standing.ts';
import { doubting, nothingTaken, type Taken } from './taken.ts';
import { takenBack } from './taken-back.ts';
import { tellNew } from './tell.ts';

type Open = Session & { readonly open: Examination };

export function answer(session: Open, pieces: readonly string[], caller: Caller, book: Book, now: number): Turn {
  const position = standingOf(session.open, caller, book, now);
  const shown = answeredStep(session, session.open, position, book);
  const isShown = shown !== null;
  const standing = shown ?? position.next;
  const doubt = isShown ? session.doubt : undefined;
  if (doubt !== undefined) {
    if (pieces.length === 1 && pieces[0] === '1') return believe(session, standing, position, caller, book, now);
    if (pieces.length === 1 && pieces[0] === '2') return proceed(settled(session), session.open, [], caller, book, now);
  }
  const inDoubt = doubt === undefined ? null : stepInDoubt(standing, doubt);
  const step = inDoubt ?? standing;
  if (step.kind === 'result') {
    const after = afterResult(isShown ? session : { ...session, page: beforeFirst }, position, pieces, caller, book, now);
    if (after !== null) return after;
  }
  const words = languageOf(book, session.language ?? caller.language).words;
  const context = { book, words, caller, now };
  const reported = takeReported(pieces, words, (names) => {
    const named = regionStep(names, position, sexKnown(position) ?? null);
    if (named === undefined) return 'not';
    return isShown && isOpenedBy(step, named, position.flow) ? 'on-screen' : 'apart';
  });
  if (!isShown && step.kind !== 'result' && !saysWhatItIs(reported.rest, step, context))
    return proceed(settled(session), session.open, [say('changed')], caller, book, now);
  const open = inDoubt?.fields ?? openFields(step, position);
  const own = reported.rest.length === 0 ? nothingTaken : readAnswer(step, open, reported.rest, context);
  const stepFor = (names: readonly string[]): MarkStep | undefined =>
    regionStep(names, position, sexKnown(position) ?? sexIn(own, pieces, words));
  const signed = withSigns(own, reported);
  const taken = { ...signed, refusals: [...signed.refusals, ...unplaced(reported.regions, stepFor)] };
  const regions = takeRegions(reported.regions, own, step, stepFor, words);
  return store(session, step, position, taken, regions, pieces, caller, book, now);
}

/**
 * Sign words count only when all beside the regions was understood: "no fit" and "not fed" hold a word that turns the sign about,
 * in whatever language, and are refused whole rather than read by half.
 */
function withSigns(own: Taken, { signs, besideRegions }: Reported): Taken {
  if (Object.keys(signs).length === 0) return own;
  if (own.refusals.length === 0) return { ...own, values: { ...own.values, ...signs } };
  return { ...own, refusals: [{ code: 'left-over', values: { text: besideRegions.join(' ').slice(0, echoed) } }] };
}

/** Labelled values alone, which mean the same whatever is asked. */
function saysWhatItIs(pieces: readonly string[], step: Step, context: Context): boolean {
  return readAnswer(stepReading([], step), [], pieces, context).refusals.length === 0;
}

/** A result that is made from other files than the one she began to read is read from its first page. */
export const beforeFirst = -1;

function store(
  session: Open,
  step: Step,
  position: Position,
  taken: Taken,
  regions: readonly Region[],
  pieces: readonly string[],
  caller: Caller,
  book: Book,
  now: number,
): Turn {
  const gives =
    Object.keys(taken.values).length > 0 ||
    taken.marks !== undefined ||
    taken.passed === true ||
    regions.some((one) => one.taken.marks !== undefined);
  const doubts = gives ? { ...stillDoubted(session, taken), ...taken.doubts } : taken.doubts;
  const doubted = Object.keys(doubts).length > 0;
  const refusals = [...taken.refusals, ...regions.flatMap((one) => one.taken.refusals)];
  if (!gives && !doubted) return refuse(session, step, refusals, pieces, caller, book, now);
  const examination = gives ? addAll(stillOpen(session.open), step, taken, regions) : session.open;
  const after = standingOf(examination, caller, book, now);
  const contradicted = contradictedIn(taken, after, book);
  if (contradicted.length > 0) return store(session, step, position, doubting(taken, contradicted), regions, pieces, caller, book, now);
  const isResultNext = after.next.kind === 'result';
  const meant = isResultNext ? [] : tellMeaning(position, after, { ...taken, doubts }, refusals, step, book);
  const refused = refusals.slice(0, 1).map(refusal);
  const gone = takenBack(session.open, [step, ...regions.map((one) => one.step)], position, after, book);
  if (!doubted) {
    const read = isResultNext ? [] : [...readBack(taken, regions, after, book), ...dosesAsked(step, after, book)];
    return proceed(settled(session), examination, [...gone, ...read, ...meant, ...refused], caller, book, now);
  }
  // Danger does not wait for what is hard to believe: that is asked again where its own question stands.
  if (isUrgent(after) && !isUrgent(position)) {
    const notTaken = say('told.not-taken', { values: doubtPhrases(doubts, book, now) });
    return proceed(settled(session), examination, [notTaken, ...gone, ...refused], caller, book, now);
  }
  const doubt = { step: session.doubt?.step ?? step.id, values: doubts };
  const { examination: open, facts } = alertFact(examination, after, caller, book, now);
  const asking = {
    ...settled(session),
    open,
    asked: askedOf(after, book),
    told: [...gone, ...ageReadBack(taken, after.gathered), ...meant, ...refused],
    doubt,
  };
  return { ...askBack(asking, doubt, book, now), facts };
}

function isUrgent({ next }: Position): boolean {
  return next.kind === 'result' && next.of === 'urgent';
}

/** What is new, once it was answered when the baby was born: before that, age alone could make something of a weight that means nothing. */
function tellMeaning(
  before: Position,
  after: Position,
  { values, doubts }: Taken,
  refusals: Taken['refusals'],
  step: Step,
  book: Book,
): Say[] {
  if (!isBirthAsked(after)) return [];
  // How much there is of a sign is no good news, however little.
  const isGoodNews = refusals.length === 0 && Object.keys(doubts).length === 0 && !step.opened;
  // Only a message that says the birth can be the first to: what was known before is not gathered for any other.
  const isFirstSaid = 'born' in values && !isBirthAsked(before);
  return tellNew(isFirstSaid ? nothingMeant : before, after.interpretation, isGoodNews ? values : {}, book);
}

/** Answered, if only by "not known". */
function isBirthAsked({ gathered }: Position): boolean {
  return gathered.known.get('born') !== undefined;
}

const nothingMeant = { interpretation: { classifications: [] } };

/** Numbers of this message that cannot be true beside what is known, such as a weight that no baby gains: they are asked back. */
function contradictedIn({ values }: Taken, after: Position, book: Book): string[] {
  const numbers = Object.keys(values).filter((of) => typeof values[of] === 'number');
  if (numbers.length === 0) return [];
  const contradicted = book.contradicted(after.gathered.case);
  return numbers.filter((of) => contradicted.includes(of));
}

/** Doses are said as soon as all that they need was asked and answered: the vial, and what was given before. */
function dosesAsked(step: Step, after: Position, book: Book): Say[] {
  const asksVial = step.kind === 'read' && step.fields.some((field) => field.of === vial);
  return asksVial && openFields(step, after).length === 0 ? doseLines(after, book) : [];
}

/** The finding that says which strength is printed on the vial. */
const vial = 'gentamicin-vial';

/** Nothing in the message could be used: why, and the same question again; after three in a row, whom to ring. */
function refuse(
  session: Open,
  step: Step,
  refusals: Taken['refusals'],
  pieces: readonly string[],
  caller: Caller,
  book: Book,
  now: number,
): Turn {
  if (step.kind === 'result' && step.of === 'final') return showMenu(session, [], caller, book, now);
  const { doubt } = session;
  const again = (told: readonly Say[]): Turn =>
    doubt === undefined
      ? proceed(settled(session), session.open, told, caller, book, now)
      : askBack({ ...settled(session), doubt, told }, doubt, book, now);
  const turn = missed(session, again, caller, pieces.join(' '));
  const [first] = refusals;
  if (first === undefined || turn.session.misses >= missesBeforeNurse) return turn;
  const refused = again([refusal(first)]);
  return { ...refused, session: { ...refused.session, misses: turn.session.misses } };
}

/** All that one message gave, under one number, so that going back takes all of it back. */
function addAll(examination: Examination, step: Step, taken: Taken, regions: readonly Region[]): Examination {
  const message = examination.messages + 1;
  const withOwn = addAnswer(examination, step, taken, message);
  return regions.reduce(
    (held, region) => (region.taken.marks === undefined ? held : addAnswer(held, region.step, { marks: region.taken.marks }, message)),
    withOwn,
  );
}

function believe(session: Open, step: Step, position: Position, caller: Caller, book: Book, now: number): Turn {
  const values = session.doubt?.values ?? {};
  const examination = addAnswer(stillOpen(session.open), step, { values });
  const after = standingOf(examination, caller, book, now);
  const told = after.next.kind === 'result' ? [] : tellNew(position, after.interpretation, values, book);
  return proceed(settled(session), examination, told, caller, book, now);
}

/** After an urgent result: 1 more advice, 2 finish the check. After the final one: 1 more, 2 ask what is missing, 3 next twin. */
function afterResult(session: Open, position: Position, pieces: readonly string[], caller: Caller, book: Book, now: number): Turn | null {
  const { next, interpretation } = position;
  if (next.kind !== 'result') return null;
  const digit = pieces.length === 1 ? pieces[0] : undefined;
  if (digit === '1') return proceed(session, session.open, session.told, caller, book, now, session.page + 1);
  const offered = next.of === 'urgent' ? offeredStep(position) : undefined;
  if (digit === '3' && offered !== undefined)
    return proceed(settled(session), addAnswer(session.open, next, { passed: true, marks: [offered] }), [], caller, book, now);
  if (next.of === 'urgent') {
    return digit === '2' ? proceed(settled(session), addAnswer(session.open, next, { passed: true }), [], caller, book, now) : null;
  }
  if (digit === '2' && interpretation.missing.length > 0) {
    const reopened = reopen(session.open, interpretation.missing, position.flow);
    return proceed(settled(session), reopened, [], caller, book, now);
  }
  if (digit === '3' && position.gathered.known.get('twin-or-triplet') === true) {
    const twin = beginTwin(session.open, position.flow, caller.phone, now, caller.message);
    return proceed({ ...settled(session), open: twin }, twin, [], caller, book, now);
  }
  return null;
}

/** A value sent after the result, such as a second temperature, opens the examination again and is weighed with the rest. */
function stillOpen(examination: Examination): Examination {
  if (examination.finishedAt === undefined) return examination;
  const { finishedAt: _finished, ...rest } = examination;
  return { ...rest, revision: examination.revision + 1 };
}

function refusal(reason: Taken['refusals'][number]): Say {
  const { unit, ...values } = reason.values;
  // The degree sign is in no 7-bit alphabet, and would double the price of the text.
  return say(`refused.${reason.code}`, unit === undefined ? values : { ...values, unit: String(unit).replace('°', '') });
}
