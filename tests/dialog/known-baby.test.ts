// A baby of the register that is seen again: what is asked, what is known, and under which key it is recorded.

import { describe, expect, it } from 'vitest';
import type { Session } from '../../src/dialog/session.ts';
import { standingOf } from '../../src/dialog/standing.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { book, caller, finished, turnOf } from '../properties/any-dialog.ts';
import { babies, babyWith, cautioned, now, turn } from './ward-turn.ts';

describe('a baby that is seen again', () => {
  const contact = turn(cautioned, 'VISIT 7FK', babies('b1'));
  const recheck = turn(cautioned, 'RECHECK 7FK', babies('b1'));

  it('keeps its id and code, and gets an examination of its own', () => {
    for (const { session } of [contact, recheck]) {
      expect(session.open).toMatchObject({ baby: 'b1', code: '7FK' });
      expect(session.open?.id).not.toBe(finished.id);
    }
  });

  it('is asked in a contact only what is not known', () => {
    const { gathered, next } = standingOf(contact.session.open!, caller, book, now);
    expect(next.id).toBe('who-contact');
    const known = gathered.known.entries().map(([of]) => of);
    expect(known.sort()).toEqual(['birth-weight', 'born', 'card', 'gestation', 'sex']);
    expect(contact.session.open?.answers.map(({ message }) => message)).toEqual([0]);
  });

  it('is never asked again for what was answered under number 0', () => {
    const weighed = turnOf(contact.session, '2950', now).session;
    expect(standingOf(turnOf(weighed, '00', now).session.open!, caller, book, now).next.id).toBe('who-contact');
    expect(turnOf(turnOf(weighed, '00', now).session, '00', now).session.open?.answers).toEqual(contact.session.open?.answers);
  });

  it('has its last weighing, and the days since, from its last contact', () => {
    const weighed = [...Array(30)].reduce<Session>(
      (session) => (session.open?.finishedAt === undefined ? turnOf(session, '0', now).session : session),
      ['2950', '- -', '0', '36.8 44'].reduce((session, text) => turnOf(session, text, now).session, contact.session),
    );
    const last = { ...weighed.open!, finishedAt: now };
    const later = { text: 'VISIT 7FK', caller: { ...caller, message: 'later' }, dialled: false };
    const again = takeTurn(
      cautioned,
      {
        ...later,
        answers: [{ lookUp: { kind: 'code', code: '7FK', rest: '' }, found: { kind: 'babies', babies: [{ ...babyWith('b1'), last }] } }],
      },
      book,
      now + 5 * 86_400_000,
    );
    const { gathered } = standingOf(again.session.open!, caller, book, now + 5 * 86_400_000);
    expect([gathered.known.get('previous-weight'), gathered.known.get('days-since-previous')]).toEqual([2950, 5]);
  });

  it('leaves facts that never carry the key of an examination that another phone made of it', () => {
    const keys = ['one', 'two'].map((message) => {
      const begun = turn(cautioned, 'RECHECK 7FK', babies('b1'), message).session;
      const ended = ['0', '36.7', '0', '0'].reduce<{ session: Session; keys: string[] }>(
        (held, text) => {
          const next = turnOf(held.session, text, now);
          return { session: next.session, keys: [...held.keys, ...next.facts.map(({ key }) => key)] };
        },
        { session: begun, keys: [] },
      );
      return ended.keys[0];
    });
    expect(new Set(keys).size).toBe(2);
    expect(keys.every((key) => key?.startsWith('examination:'))).toBe(true);
  });

  it('is the same however often the message is delivered', () => {
    expect(turn(cautioned, 'VISIT 7FK', babies('b1'))).toEqual(contact);
  });
});
