// What a worker may choose when no question is being asked: go on with a baby, begin a new one, read the last result again,
// change language. The list follows from the session, so its digits mean the same when the answer comes.

import { type Book, type Caller, languageOf } from './book.ts';
import { babyPhrase } from './phrases.ts';
import { type Option, type Question, type Say, say } from './reply.ts';
import type { Examination, Session } from './session.ts';
import { standingOf } from './standing.ts';

export type MenuAction =
  | { readonly kind: 'new-baby' | 'contact' | 'recheck' | 'list' }
  | { readonly kind: 'go-on'; readonly id: string }
  | { readonly kind: 'result' }
  | { readonly kind: 'languages' };

interface MenuItem {
  readonly label: Say;
  readonly action: MenuAction;
}

/** With all else that the menu may hold, no more digits than there are. */
const examinationsShown = 3;

export function menuItems(session: Session, caller: Caller, book: Book, now: number): MenuItem[] {
  const waiting = [session.open, ...session.aside].filter((one): one is Examination => one !== null && isHalfway(one));
  const goOn = waiting
    .slice(0, examinationsShown)
    .map(
      (one): MenuItem => ({ label: say('menu.go-on', { where: whereOf(one, caller, book, now) }), action: { kind: 'go-on', id: one.id } }),
    );
  const newBaby: MenuItem = { label: say('menu.new-baby'), action: { kind: 'new-baby' } };
  const isOpen = session.open !== null && isHalfway(session.open);
  const contact: MenuItem = { label: say('menu.contact'), action: { kind: 'contact' } };
  const list: MenuItem = { label: say('menu.list'), action: { kind: 'list' } };
  const finished = finishedLast(session);
  const last = finished === undefined ? [] : lastItems(finished, caller, book, now);
  const languages: MenuItem[] = book.languages.length > 1 ? [{ label: say('menu.language'), action: { kind: 'languages' } }] : [];
  const [first, ...others] = goOn;
  return isOpen && first !== undefined
    ? [first, newBaby, contact, list, ...others, ...last, ...languages]
    : [newBaby, contact, list, ...goOn, ...last, ...languages];
}

/** The examination whose result was given last, in this session or before a new baby was begun. */
export function finishedLast({ open, last }: Session): Examination | undefined {
  return open?.finishedAt === undefined ? last : open;
}

/** What can be done with the baby whose result was given last. */
function lastItems(examination: Examination, caller: Caller, book: Book, now: number): MenuItem[] {
  const baby = babyPhrase(standingOf({ ...examination, finishedAt: now }, caller, book, now).gathered.case);
  return [
    { label: say('menu.recheck', { baby }), action: { kind: 'recheck' } },
    { label: say('menu.result'), action: { kind: 'result' } },
  ];
}

/** Begun and not finished: something was answered, and there is more to ask. */
export function isHalfway(examination: Examination): boolean {
  return examination.finishedAt === undefined && examination.answers.length > 0;
}

export function menuQuestion(session: Session, caller: Caller, book: Book, now: number): Question {
  return {
    title: say('menu.title'),
    options: numbered(menuItems(session, caller, book, now).map((item) => item.label)),
    tail: [say('menu.tail')],
  };
}

export function languageQuestion(book: Book): Question {
  return { title: say('menu.languages'), options: numbered(book.languages.map((one) => say('verbatim', { text: one.name }))), tail: [] };
}

/** "girl 5 h, at head": which baby, and where its examination stands. */
export function whereOf(examination: Examination, caller: Caller, book: Book, now: number): Say {
  const { gathered, next } = standingOf(examination, caller, book, now);
  return say('menu.where', { baby: babyPhrase(gathered.case), step: say(`ask.${next.id}.place`) });
}

function numbered(labels: readonly Say[]): Option[] {
  return labels.map((label, at) => ({ digit: String(at + 1), label }));
}

/** Item chosen by its digit; undefined when there is none. */
export function chosen<T>(items: readonly T[], text: string): T | undefined {
  return /^\d$/.test(text) ? items[Number(text) - 1] : undefined;
}

/** The base language's words are understood in every session, so that a worker is never locked out of her own language. */
export function understood(book: Book, session: Session, caller: Caller): ReturnType<typeof languageOf>[] {
  const own = languageOf(book, session.language ?? caller.language);
  const [base] = book.languages;
  return base === undefined || base.tag === own.tag ? [own] : [own, base];
}
