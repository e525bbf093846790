// Whether a message is answered at once or waits for the PIN of whose phone it is. Never waits: a new baby, going on with one that was
// begun so a moment ago, a sick baby whose advice stands, the nurse's number. What else the dialog would say, it says after the PIN.
// The dialog is asked first, which costs nothing: it touches nothing, and names what it would show. Next: pin-state.ts, receive.ts.

import type { Urgency } from '../../clinical/protocol.ts';
import type { Book, Command } from '../../dialog/book.ts';
import { commandOf } from '../../dialog/commands.ts';
import { understood } from '../../dialog/menu.ts';
import type { Turn } from '../../dialog/proceed.ts';
import { normalise } from '../../dialog/readings/tokens.ts';
import { type Say, say } from '../../dialog/reply.ts';
import type { Session } from '../../dialog/session.ts';
import { shortHash } from '../../dialog/short-hash.ts';
import { standingOf } from '../../dialog/standing.ts';
import { type IncomingText, takeTurn } from '../../dialog/turn.ts';
import type { Person } from '../ports.ts';
import { closedMinutes, type HeldMessage, mayHoldPin, mostTries, noPinState, type PinState, pinIn, wrongLately } from './pin-state.ts';

export const usualPinMinutes = 15;

export interface PinParts {
  /** So long a phone may be silent before the PIN is asked for. */
  readonly pinMilliseconds: number;
  /** Whether these digits are the PIN of this hash; in a time that tells nothing of them. */
  readonly isPin: (digits: string, hash: string) => Promise<boolean>;
}

export type PinPassed =
  /** The message to answer now: this one, or the one that waited. */
  | { readonly kind: 'passed'; readonly said: IncomingText; readonly state: PinState }
  /** The PIN is asked for, and nothing else is done. */
  | { readonly kind: 'asked'; readonly told: Say; readonly state: PinState };

const sick: ReadonlySet<Urgency | 'incomplete'> = new Set(['urgent', 'refer', 'treat']);
/** Advice about a sick baby stands for so long after the phone was last answered. */
const sickMilliseconds = 24 * 3_600_000;
/** Begins a new baby where the PIN is asked for: one key on a phone on which words are slow. */
const newBabyDigit = '0';

export async function passPin(
  { session, pin: state }: { readonly session: Session; readonly pin: PinState },
  said: IncomingText,
  { pin }: Pick<Person, 'pin'>,
  book: Book,
  now: number,
  { pinMilliseconds, isPin }: PinParts,
): Promise<PinPassed> {
  if (pin === undefined) return { kind: 'passed', said, state: noPinState };
  const isRecent = (at: number | undefined): boolean => at !== undefined && now - at <= pinMilliseconds;
  const of = shortHash(pin);
  if (state.opened?.of === of && isRecent(state.opened.at))
    return { kind: 'passed', said: isCalledPin(said) ? worded(said, 'go-on', book) : said, state: { opened: { at: now, of } } };

  const isAsked = isRecent(state.asked?.at);
  const digits = said.dialled ? null : pinIn(said.text);
  if (digits === null || !(isAsked || isCalledPin(said))) {
    const free = freely(isAsked && !said.dialled && normalise(said.text) === newBabyDigit ? worded(said, 'new-baby', book) : said);
    if (free !== null) return free;
  }
  if (digits === null) return ask(say('pin.ask', { nurse: said.caller.nurse }), heldNext());
  const minutes = closedMinutes(state, now);
  if (minutes > 0) return ask(say('pin.closed', { minutes, nurse: said.caller.nurse }), state.asked?.held);
  if (!(await isPin(digits, pin))) return refuse();
  const { held } = isAsked ? (state.asked ?? {}) : {};
  const { withoutMenu: _, ...rest } = said;
  return {
    kind: 'passed',
    said: held === undefined ? worded({ ...rest, dialled: false }, 'go-on', book) : { ...rest, ...held },
    state: { opened: { at: now, of } },
  };

  /** The message as it is answered without a PIN; null: what it would show is behind it. */
  function freely(asIs: IncomingText): PinPassed | null {
    const atOnce = { ...asIs, withoutMenu: true };
    const turn = takeTurn(session, atOnce, book, now);
    const { begun, asked: _asked, opened: _opened, ...rest } = state;
    const isNew = beginsNew(session, turn);
    const isBegunHere = begun !== undefined && begun.examination === turn.session.open?.id && isRecent(begun.at);
    // What may hold the PIN that was asked for is no answer, which would be kept and said again.
    const isAnswer = !isAsked || asIs.dialled || !mayHoldPin(asIs.text);
    const isAbout = isAnswer && staysWith(session, turn) && !answersFollowed(session, asIs, book);
    const goesOn = isAbout && (isBegunHere || isSick(session, asIs, book, now));
    if (!isNew && !goesOn && !asksNurse(session, asIs, book)) return null;
    const kept = isNew ? { examination: turn.session.open?.id ?? '', at: now } : isBegunHere ? { ...begun, at: now } : begun;
    return { kind: 'passed', said: atOnce, state: { ...rest, ...(kept === undefined ? {} : { begun: kept }) } };
  }

  function heldNext(): HeldMessage | undefined {
    if (said.dialled || !mayHoldPin(said.text)) return { text: said.text, dialled: said.dialled };
    return isAsked ? state.asked?.held : undefined;
  }

  function ask(told: Say, held: HeldMessage | undefined, wrong = state.wrong): PinPassed {
    const { opened: _opened, wrong: _wrong, ...rest } = state;
    const asked = { at: now, ...(held === undefined ? {} : { held }) };
    return { kind: 'asked', told, state: { ...rest, asked, ...(wrong === undefined ? {} : { wrong }) } };
  }

  function refuse(): PinPassed {
    const wrong = [...wrongLately(state, now), now];
    const { nurse } = said.caller;
    const held = isAsked ? state.asked?.held : undefined;
    const minutes = closedMinutes({ wrong }, now);
    const told = minutes > 0 ? say('pin.closed', { minutes, nurse }) : say('pin.wrong', { count: mostTries - wrong.length, nurse });
    return ask(told, held, wrong);
  }
}

/** "PIN 4820": no answer, whatever is asked, and never quoted back. */
function isCalledPin({ text, dialled }: IncomingText): boolean {
  return !dialled && normalise(text).startsWith('pin') && pinIn(text) !== null;
}

/** Views that stand about the examination in hand; the others speak of babies that are known. */
const viewsOfExamination: ReadonlySet<Session['view']> = new Set([undefined, 'explain', 'why', 'languages']);

function showsExamination({ session, lookUp }: Turn): boolean {
  return lookUp === undefined && session.open !== null && viewsOfExamination.has(session.view);
}

/** An examination that nobody had begun before this message. */
function beginsNew({ open, last, aside }: Session, turn: Turn): boolean {
  return showsExamination(turn) && ![open, last, ...aside].some((one) => one?.id === turn.session.open?.id);
}

function staysWith({ open }: Session, turn: Turn): boolean {
  return showsExamination(turn) && open?.id === turn.session.open?.id;
}

/** An answer to what was asked of a baby that is known, whatever examination is in hand beside it. */
function answersFollowed(session: Session, said: IncomingText, book: Book): boolean {
  const isAtFollowed = session.view === 'followed' || session.view === 'explain-followed';
  return isAtFollowed && !said.dialled && commandIn(session, said, book) === undefined;
}

/** Asked only of an examination that the turn stayed with, whose questions are published still. */
function isSick({ open, lastMessageAt }: Session, { caller }: IncomingText, book: Book, now: number): boolean {
  if (open === null || now - lastMessageAt > sickMilliseconds) return false;
  return sick.has(standingOf(open, caller, book, now).interpretation.urgency);
}

function asksNurse(session: Session, said: IncomingText, book: Book): boolean {
  return !said.dialled && commandIn(session, said, book) === 'nurse';
}

function commandIn(session: Session, { text, caller }: IncomingText, book: Book): Command | undefined {
  return commandOf(text, understood(book, session, caller))?.command;
}

/** The same as if the word of a command had come. */
function worded(said: IncomingText, command: Command, book: Book): IncomingText {
  const [word = ''] = [...(book.languages[0]?.keywords ?? [])].find(([, one]) => one === command) ?? [];
  return { ...said, text: word };
}
