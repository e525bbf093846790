// Takes up an examination: the one in hand is set aside when it is halfway, and stays known as the last when it is finished.

import { isHalfway } from './menu.ts';
import { settled } from './proceed.ts';
import type { Examination, Session } from './session.ts';

const asideKept = 6;

export type Open = Session & { readonly open: Examination };

export function takeUp(session: Session, examination: Examination): Open {
  const { open, last: before } = session;
  const left = open !== null && open.id !== examination.id && isHalfway(open) ? [open] : [];
  const last = open?.finishedAt === undefined ? before : open;
  const aside = [...left, ...session.aside.filter((one) => one.id !== examination.id)].slice(0, asideKept);
  const { asked: _asked, ...rest } = settled(session);
  return { ...rest, ...(last === undefined ? {} : { last }), open: examination, aside };
}

export function babyOf({ baby, id }: Pick<Examination, 'baby' | 'id'>): string {
  return baby ?? id;
}

/** An examination of this baby that was begun in this session and is not finished. */
export function halfwayOf({ open, aside }: Session, baby: string): Examination | undefined {
  return [open, ...aside].find((one): one is Examination => one !== null && babyOf(one) === baby && isHalfway(one));
}

/** Nothing of this baby is offered any more: it is followed no longer. */
export function forget(session: Session, baby: string): Session {
  const { last, ...rest } = session;
  const keeps = (one: Examination): boolean => babyOf(one) !== baby;
  return {
    ...rest,
    ...(last !== undefined && keeps(last) ? { last } : {}),
    open: session.open !== null && keeps(session.open) ? session.open : null,
    aside: session.aside.filter(keeps),
  };
}
