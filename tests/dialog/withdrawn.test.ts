// A flow that is published no more while sessions are in it: no worker is left without a phone, nothing is read as an answer to a
// question that is gone, and she is told.

import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/dialog/book.ts';
import type { Session } from '../../src/dialog/session.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { book, caller, finished, turnOf } from '../properties/any-dialog.ts';
import { cautioned, now } from './ward-turn.ts';

const without = (name: string): Book => ({ ...book, flows: new Map([...book.flows].filter(([id]) => id !== name)) });
const later = without('postnatal-contact');
const send = (session: Session, text: string, dialled = false) => takeTurn(session, { text, caller, dialled }, later, now);
const told = (session: Session, text: string, dialled = false) => send(session, text, dialled).reply.told.map(({ key }) => key);

const contact = turnOf(cautioned, 'VISIT 1 16/11 0430 39 3100 3250', now).session;
const asideOf = (session: Session): Session => turnOf(session, 'BABY 1 0430 39 3100', now + 1000).session;

describe('a session in a flow that is published no more', () => {
  it('was in it, in this test', () => {
    expect(contact.open?.flow).toBe('postnatal-contact');
    expect(() => takeTurn(contact, { text: '0', caller, dialled: false }, book, now)).not.toThrow();
  });

  it.each(['0', '1', '36.8', 'BACK', 'MORE', '?', 'WHY', 'GO', 'MENU'])('is told so once, whatever is sent: %s', (text) => {
    const turn = send(contact, text);
    expect(turn.reply.told[0]).toEqual({ key: 'withdrawn', values: { nurse: caller.nurse } });
    expect(turn.session.open).toBeNull();
    expect(turn.facts).toEqual([]);
    expect(told(turn.session, 'MENU')).toEqual([]);
  });

  it('is told so on a call as well, and a new examination begins', () => {
    const turn = send(contact, '', true);
    expect(turn.reply.told.map(({ key }) => key)).toContain('withdrawn');
    expect(turn.session.open?.flow).toBe('first-day-exam');
  });

  it('goes on with the examination in hand when only one that was set aside is gone', () => {
    const session = asideOf(contact);
    expect(session.aside).toHaveLength(1);
    const turn = send(session, '0');
    expect(turn.session.aside).toEqual([]);
    expect(turn.session.open?.answers.length).toBeGreaterThan(session.open?.answers.length ?? 0);
    expect(told(session, '0')).not.toContain('withdrawn');
  });

  it('offers a result no more whose flow is gone, and keeps others', () => {
    const gone: Session = { ...cautioned, last: { ...finished, flow: 'postnatal-contact' } };
    expect(send(gone, 'RECHECK').session.last).toBeUndefined();
    expect(send({ ...cautioned, last: finished }, 'MENU').session.last).toEqual(finished);
  });

  it('is as it was where all is published', () => {
    const session = asideOf(contact);
    expect(turnOf(session, '0', now).session.aside).toHaveLength(1);
  });
});
