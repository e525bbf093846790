// Turns of the dialog core that ask the register, which answers with babies of an invented ward, or is away.

import type { FollowedBaby, Found } from '../../src/dialog/followed.ts';
import type { Turn } from '../../src/dialog/proceed.ts';
import { newSession, type Session } from '../../src/dialog/session.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { book, caller, finished, morning, turnOf } from '../properties/any-dialog.ts';
import { wardAt } from '../properties/any-ward.ts';

export const now = morning;
const ward = wardAt(now, caller.phone, finished);
export const babyWith = (id: string): FollowedBaby => ward.find((one) => one.id === id) as FollowedBaby;
export const babies = (...ids: readonly string[]): Found => ({ kind: 'babies', babies: ids.map(babyWith) });
export const away: Found = { kind: 'away' };
export const cautioned: Session = { ...newSession, cautioned: true };

/** A turn of which the register's answer is given, whatever it asks for. */
export function turn(session: Session, text: string, found: Found, message = `m-${text}`): Turn {
  const incoming = { text, caller: { ...caller, message }, dialled: false };
  const first = takeTurn(session, incoming, book, now);
  return first.lookUp === undefined ? first : takeTurn(session, { ...incoming, answers: [{ lookUp: first.lookUp, found }] }, book, now);
}
export const asked = (session: Session, text: string) => takeTurn(session, { text, caller, dialled: false }, book, now).lookUp;
export const said = ({ reply }: Turn): string[] => [
  ...reply.told.map(({ key }) => key),
  ...(reply.question === undefined ? [] : [reply.question.title.key]),
];
export const digits = ({ reply }: Turn): string[] => reply.question?.options.map(({ digit }) => digit) ?? [];

/** An examination in which this question stands. */
export const at = (...texts: readonly string[]): Session => texts.reduce((session, text) => turnOf(session, text, now).session, cautioned);
