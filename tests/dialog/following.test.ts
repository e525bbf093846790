// Babies of the register in the dialog core: what is looked up, what the digits mean, what is begun and which facts leave.
// Next: known-baby.test.ts.

import { describe, expect, it } from 'vitest';
import type { Answered } from '../../src/dialog/followed.ts';
import type { Turn } from '../../src/dialog/proceed.ts';
import type { BabyAction, Session } from '../../src/dialog/session.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { book, caller, positionOf, turnOf } from '../properties/any-dialog.ts';
import { asked, at, away, babies, babyWith, cautioned, digits, now, said, turn } from './ward-turn.ts';

describe('what is looked up', () => {
  it.each([
    ['LIST', { kind: 'list' }],
    ['7fk', { kind: 'code', code: '7FK', rest: '' }],
    ['7FK 1', { kind: 'code', code: '7FK', rest: '1' }],
    ['RECHECK 7FK', { kind: 'code', code: '7FK', rest: '' }],
    ['VISIT 7FK', { kind: 'code', code: '7FK', rest: '' }],
  ])('for %j is %j, in the middle of an examination too', (text, lookUp) => {
    expect(asked(cautioned, text)).toEqual(lookUp);
    expect(asked(at('BABY 1 0430 39 3100'), text)).toEqual(lookUp);
  });

  it.each(['36.8 44 132', '0', 'BABY 1 0430 39 3100', 'MENU', 'RECHECK', 'VISIT 1 16/11 0430 39 3100 3250'])(
    'for %j is nothing',
    (text) => {
      expect(asked(cautioned, text)).toBeUndefined();
    },
  );

  it('is nothing for a unit while the question reads numbers, and a code where digits of signs are asked', () => {
    expect(asked(at('BABY'), '5HR')).toBeUndefined();
    expect(asked(at('BABY'), '7FK')).toBeDefined();
    expect(asked(at('BABY 1 0430 39 3100'), '5HR')).toBeDefined();
  });

  it('says nothing and changes nothing until it is found', () => {
    const first = takeTurn(cautioned, { text: 'LIST', caller, dialled: false }, book, now);
    expect(first.reply).toEqual({ told: [], page: 0, ends: false });
    expect(first.facts).toEqual([]);
  });
});

describe('a register that is away', () => {
  it.each(['LIST', '7FK', '7FK 1', 'RECHECK 7FK'])('is said to be, and the examination in hand can be gone on with: %s', (text) => {
    const session = at('BABY 1 0430 39 3100', '0');
    const reply = turn(session, text, away);
    expect(said(reply)).toEqual(['followed.away', 'menu.title']);
    expect(reply.reply.question?.options[0]?.label.key).toBe('menu.go-on');
    const gone = turn(reply.session, '1', away);
    expect(gone.session.open).toEqual(session.open);
    expect(said(gone)).toEqual([`ask.${positionOf(session, now).next.id}.title`]);
  });

  it('lets no digit that is sent to it answer the question of the baby in hand', () => {
    const session = at('BABY 1 0430 39 3100');
    const { session: told } = turn(session, '7FK', away);
    for (const digit of ['0', '4', '9']) expect(turn(told, digit, away).session.open).toEqual(session.open);
  });

  it('is asked again by the digit of a list that stands', () => {
    const { session: listed } = turn(cautioned, 'LIST', babies('b1', 'b3'));
    const reply = turn(listed, '2', away);
    expect(said(reply)).toEqual(['followed.away']);
    expect(asked(reply.session, '2')).toEqual({ kind: 'baby', id: 'b3' });
  });

  it('loses no words for a nurse in silence', () => {
    expect(said(turn(cautioned, '7FK is worse', away))).toEqual(['followed.not-sent', 'menu.title']);
  });
});

describe('the list', () => {
  const listed = turn(cautioned, 'LIST', babies('b1', 'b3', 'b4')).session;

  it('keeps ids alone in the session', () => {
    expect(listed.followed).toEqual({ of: 'list', babies: ['b1', 'b3', 'b4'] });
  });

  it('means by a digit the baby that was shown, though the register has another order now', () => {
    expect(asked(listed, '2')).toEqual({ kind: 'baby', id: 'b3' });
    const page = turn(listed, '99', babies('b4', 'b3'));
    expect(page.reply.question?.options.map(({ label }) => label.key)).toEqual(['followed.done', 'followed.line', 'followed.line']);
    expect(page.session.followed).toEqual(listed.followed);
  });

  it('says of a baby that is followed no longer that it is, and keeps the list', () => {
    const gone = turn(listed, '1', { kind: 'babies', babies: [] });
    expect(said(gone)).toEqual(['followed.gone']);
    expect(asked(gone.session, '2')).toEqual({ kind: 'baby', id: 'b3' });
  });

  it('stands after a code that no baby has, which says nothing of the babies listed', () => {
    const text = { text: '9XY', caller, dialled: false };
    const none: Answered = { lookUp: { kind: 'code', code: '9XY', rest: '' }, found: { kind: 'babies', babies: [] } };
    expect(takeTurn(listed, { ...text, answers: [none] }, book, now).lookUp).toEqual({ kind: 'list' });
    const list: Answered = { lookUp: { kind: 'list' }, found: babies('b1', 'b3', 'b4') };
    const { reply } = takeTurn(listed, { ...text, answers: [none, list] }, book, now);
    expect(reply.told.map(({ key }) => key)).toEqual(['followed.unknown']);
    expect(reply.question?.options.map(({ label }) => label.key)).toEqual(['followed.line', 'followed.line', 'followed.line']);
  });

  it('has nine digits at most, and says how many more there are', () => {
    const many = Array.from({ length: 14 }, (_, each) => ({ ...babyWith('b1'), id: `many-${each}` }));
    const list = turn(cautioned, 'LIST', { kind: 'babies', babies: many });
    expect(digits(list)).toEqual(['1', '2', '3', '4', '5', '6', '7', '8', '9']);
    expect(list.reply.told).toEqual([{ key: 'followed.and-more', values: { count: 5 } }]);
  });

  it('asks which baby is meant by a code that two share, the own one first', () => {
    const which = turn(cautioned, '3AC', babies('b2', 'b3'));
    expect(said(which)).toEqual(['followed.which']);
    expect(which.session.followed).toMatchObject({ babies: ['b3', 'b2'] });
  });

  it('begins nothing for a code that two share, whatever follows it', () => {
    for (const text of ['3AC 1', '3AC 44', 'RECHECK 3AC']) {
      const which = turn(cautioned, text, babies('b2', 'b3'));
      expect([said(which), which.facts]).toEqual([['followed.which'], []]);
    }
  });
});

describe('a code', () => {
  it('that no baby has is an answer as before', () => {
    const session = at('BABY 1 0430 39 3100');
    const none = turn(session, '9XY', { kind: 'babies', babies: [] });
    expect(said(none)).toEqual(['refused.marks', 'ask.danger.title']);
    expect(none.session.open?.answers).toEqual(session.open?.answers);
  });

  it.each([
    ['b1', 'a recheck that is due begins', ['followed.begun', 'ask.danger.title']],
    ['b2', 'a contact that was missed begins', ['followed.begun', 'ask.part']],
    ['b3', 'an urgent referral that waits is asked about first', ['referral.ask.left']],
    ['b4', 'a referral is asked about when nothing else is due', ['referral.ask.arrived']],
    ['b5', 'a family that refused is visited', ['followed.begun', 'ask.part']],
    ['b6', 'what became of a baby in hospital is asked', ['referral.ask.outcome']],
    ['b8', 'one examined in a flow that is gone gives the choice', ['followed.title']],
  ])('of %s: %s', (id, _, keys) => {
    expect(said(turn(cautioned, babyWith(id).code, babies(id)))).toEqual(keys);
  });

  it('of a referral without haste lets what is due come first', () => {
    const due = { ...babyWith('b4'), due: babyWith('b1').due };
    expect(said(turn(cautioned, '4DD', { kind: 'babies', babies: [due] }))).toEqual(['followed.begun', 'ask.danger.title']);
  });

  it('sent again while its examination is in hand gives the choice, and 00 goes on', () => {
    const begun = turn(cautioned, '7FK', babies('b1')).session;
    const choice = turn(begun, '7FK', babies('b1'), 'second');
    expect(said(choice)).toEqual(['followed.title']);
    expect(said(turn(choice.session, '00', away))).toEqual(['ask.danger.title']);
  });

  it('of an examination that was set aside goes on with it', () => {
    const begun = turn(cautioned, '7FK', babies('b1')).session;
    const other = turnOf(begun, 'BABY 1 0430 39 3100', now).session;
    const back = turn(other, '7FK', babies('b1'), 'third');
    expect([back.session.open?.id, back.session.aside.map(({ id }) => id)]).toEqual([begun.open?.id, [other.open?.id]]);
  });
});

describe('news of a referral', () => {
  it.each([
    ['1', 'left', null],
    ['2', 'not-left', null],
    ['3', 'refused', null],
    ['31', 'refused', 'cost'],
    ['5', 'arrived', null],
  ])('3AC %s is the fact %s, reason %s, once for its message', (digit, news, reason) => {
    const { facts } = turn(cautioned, `3AC ${digit}`, babies('b3'), 'm-1');
    expect(facts).toMatchObject([
      { kind: 'referral-news', key: 'referral-news:m-1', baby: 'b3', referral: 'referral-advised', news, reason, by: caller.phone },
    ]);
  });

  it('is the same by the digits of the question', () => {
    const question = turn(cautioned, '3AC', babies('b3'));
    expect(digits(question)).toEqual(['1', '2', '3', '4', '0']);
    expect(turn(question.session, '1', away, 'm-1').facts).toEqual(turn(cautioned, '3AC 1', babies('b3'), 'm-1').facts);
    expect(said(turn(question.session, '7', away))).toEqual(['refused.not-a-choice', 'referral.ask.left']);
    expect(said(turn(question.session, '0', away))).toEqual(['followed.title']);
  });

  it('tells a refusal before its reason, and the reason after it', () => {
    const refused = turn(cautioned, '3AC 3', babies('b3'), 'm-1');
    expect(said(refused)).toEqual(['referral.refused-advice', 'followed.why']);
    const why = turn(refused.session, '4', away, 'm-2');
    expect(why.facts).toMatchObject([{ key: 'referral-news:m-2', news: 'refused', reason: 'elder-decides' }]);
    expect(why.session.followed).toBeUndefined();
  });

  it('is none where no referral is open', () => {
    const none = turn(cautioned, '7FK 1', babies('b1'));
    expect([said(none), none.facts]).toEqual([['followed.no-referral', 'followed.title'], []]);
  });
});

describe('a death', () => {
  const open = turn(cautioned, 'RECHECK 7FK', babies('b1')).session;
  const menu = turn(open, '7FK', babies('b1'), 'again');

  it('is asked back before it is a fact, unless it was sent as 44', () => {
    const digit = String(menu.reply.question!.options.findIndex(({ label }) => label.key === 'followed.action.died') + 1);
    const sure = turn(menu.session, digit, away);
    expect([said(sure), sure.facts]).toEqual([['followed.sure.died'], []]);
    expect(said(turn(sure.session, '2', away))).toEqual(['followed.title']);
    expect(turn(sure.session, '1', away, 'm-9').facts).toMatchObject([
      { kind: 'baby-news', key: 'baby-news:m-9', baby: 'b1', news: 'died', to: null, worker: caller.phone },
    ]);
    expect(turn(cautioned, '3AC 4', babies('b3')).facts).toEqual([]);
    expect(turn(cautioned, '3AC 44', babies('b3')).facts).toMatchObject([{ news: 'died', referral: 'referral-advised' }]);
  });

  it('is said with nothing beside it, and nothing of the baby is offered any more', () => {
    const died = turn(open, '3AC 44', { kind: 'babies', babies: [{ ...babyWith('b3'), id: 'b1' }] });
    expect(died.reply).toMatchObject({ told: [{ key: 'followed.died' }], ends: true });
    expect(died.reply.question).toBeUndefined();
    expect([died.session.open, died.session.aside, died.session.last]).toEqual([null, [], undefined]);
  });
});

describe('a baby that leaves her care', () => {
  const menuOf = (id: string): Session => turn(cautioned, `${babyWith(id).code} 1`, babies(id)).session;
  const chosen = (id: string, action: BabyAction): Turn => {
    const session = menuOf(id);
    const actions = session.followed?.of === 'baby' ? session.followed.actions : [];
    return turn(session, String(actions.indexOf(action) + 1), away);
  };

  it('is handed over to the colleague whose digit was sent', () => {
    const question = chosen('b1', 'hand-over');
    expect(digits(question)).toEqual(['1', '2', '3']);
    const told = turn(question.session, '2', away, 'm-3');
    expect(told.facts).toMatchObject([{ news: 'handed-over', to: caller.colleagues![1]!.phone, key: 'baby-news:m-3' }]);
  });

  it('is hers to take over from a colleague, whose digit it is not', () => {
    const question = chosen('b2', 'hand-over');
    expect(question.session.followed).toMatchObject({ to: [caller.phone, '+254700555103', '+254700555104'] });
    expect(turn(question.session, '1', away).facts).toMatchObject([{ to: caller.phone, worker: '+254700555102' }]);
  });

  it('is not given to one who has left the roster since it was asked', () => {
    const question = chosen('b1', 'hand-over');
    const without = { ...caller, colleagues: caller.colleagues!.slice(1) };
    const late = takeTurn(question.session, { text: '1', caller: without, dialled: false }, book, now);
    expect([said(late), late.facts]).toEqual([['refused.not-a-choice', 'followed.hand-over'], []]);
  });

  it('has moved away only once that is said twice', () => {
    const sure = chosen('b1', 'moved');
    expect(sure.facts).toEqual([]);
    expect(turn(sure.session, '1', away).facts).toMatchObject([{ kind: 'baby-news', news: 'moved' }]);
  });
});
