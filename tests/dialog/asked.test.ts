// Files that are published between a question and its answer: no digit is read as another sign than the one that was shown with it;
// what she saw is answered although another question comes first by now, and a labelled value is taken whatever is asked.

import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/dialog/book.ts';
import type { Flow, Step } from '../../src/dialog/flow.ts';
import type { Session } from '../../src/dialog/session.ts';
import { standingOf } from '../../src/dialog/standing.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { book, caller, finished, turnOf } from '../properties/any-dialog.ts';
import { cautioned, now } from './ward-turn.ts';

const first = book.flows.get('first-day-exam') as Flow;
const withSteps = (steps: readonly Step[]): Book => ({
  ...book,
  version: 'later',
  flows: new Map([...book.flows, [first.id, { ...first, steps }]]),
});
const turned = withSteps(
  first.steps.map((step) => (step.kind === 'mark' && step.id === 'danger' ? { ...step, marks: [...step.marks].reverse() } : step)),
);
const danger = first.steps.findIndex(({ id }) => id === 'danger');
const pregnancyFirst = withSteps(
  first.steps.map((step, at) => first.steps[at === danger ? danger + 1 : at === danger + 1 ? danger : at] ?? step),
);
const reworded: Book = { ...book, version: 'later' };

const begun = turnOf(cautioned, 'BABY 1 0430 39 3100', now).session;
const send = (session: Session, text: string, published: Book) => takeTurn(session, { text, caller, dialled: false }, published, now);
const nextOf = (session: Session, published: Book) =>
  session.open === null ? null : standingOf(session.open, caller, published, now).next.id;

describe('an answer to a question that was changed since', () => {
  it('was asked for its danger signs, in this test', () => {
    expect([nextOf(begun, book), nextOf(begun, pregnancyFirst)]).toEqual(['danger', first.steps[danger + 1]?.id]);
  });

  it.each([
    ['the signs in another order', turned],
    ['the region is asked no more', withSteps(first.steps.filter(({ id }) => id !== 'danger'))],
  ])('is not taken, and the question that stands is shown: %s', (_what, published) => {
    const turn = send(begun, '1', published);
    expect(turn.reply.told).toEqual([{ key: 'changed' }]);
    expect(turn.session.open?.answers).toEqual(begun.open?.answers);
    const again = send(turn.session, '0', published);
    expect(again.reply.told).not.toContainEqual({ key: 'changed' });
    expect(again.session.open?.answers.length).toBe((begun.open?.answers.length ?? 0) + 1);
  });

  it('is taken as what she saw when another question stands in its place: a danger sign is not asked for twice', () => {
    const turn = send(begun, '1', pregnancyFirst);
    expect(turn.session.open?.answers.at(-1)).toMatchObject({ step: 'danger', marks: [expect.any(String)] });
    expect([turn.reply.told, turn.facts.map(({ kind }) => kind)]).toEqual([[], expect.arrayContaining(['alert'])]);
    expect(nextOf(turn.session, pregnancyFirst)).toBe('urgent');
    const calm = send(begun, '0', pregnancyFirst);
    expect(calm.reply.told).not.toContainEqual({ key: 'changed' });
    expect([nextOf(calm.session, pregnancyFirst), nextOf(begun, pregnancyFirst)]).toEqual(Array(2).fill(first.steps[danger + 1]?.id));
  });

  it('is explained as what she saw too', () => {
    expect(send(begun, '?', pregnancyFirst).reply.told).toEqual([{ key: 'explain.danger' }]);
  });

  it('is not taken twice: once answered, what stands is asked', () => {
    const answered = send(begun, '0', book).session;
    const { asked } = begun;
    if (asked === undefined) throw new Error('The session keeps what was asked.');
    const turn = send({ ...answered, asked }, '1', book);
    expect([turn.reply.told, turn.session.open?.answers.length]).toEqual([[{ key: 'changed' }], answered.open?.answers.length]);
  });

  it('is taken when only words changed', () => {
    expect(send(begun, '1', reworded).facts.map(({ kind }) => kind)).toContain('alert');
  });

  it('is taken when it says what it is', () => {
    const turn = send(begun, 'T36.8 R44 P132', turned);
    expect(turn.session.open?.answers.flatMap(({ values }) => Object.keys(values ?? {}))).toContain('temperature');
  });

  it('to "36.9? 1 Yes 2 No" believes nothing', () => {
    let session = begun;
    while (nextOf(session, book) !== 'vitals') session = turnOf(session, '0', now).session;
    const doubting = turnOf(session, '369', now).session;
    expect(doubting.doubt).toBeDefined();
    const vitals = first.steps.findIndex(({ id }) => id === 'vitals');
    const without = withSteps(first.steps.filter((_step, at) => at !== vitals));
    const turn = send(doubting, '1', without);
    expect([turn.reply.told, turn.session.doubt]).toEqual([[{ key: 'changed' }], undefined]);
    expect(send(doubting, '1', book).session.open?.answers.length).toBe((doubting.open?.answers.length ?? 0) + 1);
  });

  it.each(['1', 'MORE'])('of a result turns to its first page: %s', (text) => {
    const reading = turnOf({ ...cautioned, open: finished }, 'GO ON', now).session;
    expect(send(reading, text, book).reply.page).toBe(1);
    expect(send(reading, text, reworded).reply.page).toBe(0);
  });
});
