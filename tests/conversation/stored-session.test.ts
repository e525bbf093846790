import { describe, expect, it } from 'vitest';
import { readSession, writeSession } from '../../src/conversation/stored-session.ts';
import { type Examination, newSession, type Session } from '../../src/dialog/session.ts';
import { morning, turnOf } from '../properties/any-dialog.ts';

const normalFirstDay = ['BABY', '1 0430 39 3100', '0', '0', '0', '36.8 44 132', '0', '0', '0', '0', '0', '0', '0', '0', '0', '0'];
/** A result, another baby begun after it, a third one beside it. */
const severalBabies = [...normalFirstDay, 'BABY', '2 0500 38 2800', '6', 'BABY 1 0600 40 3300', '1', '2'];

const sessionAfter = (texts: readonly string[]): Session =>
  texts.reduce<Session>((session, text, at) => turnOf(session, text, morning + at * 40_000).session, newSession);

/** As a session was written before its answers were rows. */
const writtenWhole = (session: Session): string => JSON.stringify({ v: 1, ...session });

/** As one was written while every row said what was marked, also where nothing was. */
const writtenInFull = ({ open, last, ...rest }: Session): string => {
  const inRows = (examination: Examination) => ({
    ...examination,
    answers: examination.answers.map(({ step, seal, message, ...given }) => [step, seal, message, given]),
  });
  return JSON.stringify({ v: 2, ...rest, open: open && inRows(open), last: last && inRows(last) });
};

describe('a stored session', () => {
  it('takes at most 520 bytes in the middle of an examination', () => {
    const half = sessionAfter(normalFirstDay.slice(0, normalFirstDay.length / 2));
    expect(half.open?.answers).toHaveLength(7);
    expect(Buffer.byteLength(writeSession(half))).toBeLessThanOrEqual(520);
  });

  it('takes at most 1200 with the baby before, whose result may still be asked for', () => {
    const half = sessionAfter([...normalFirstDay, ...normalFirstDay.slice(0, normalFirstDay.length / 2)]);
    expect([half.open?.answers.length, half.last?.answers.length]).toEqual([7, 15]);
    expect(Buffer.byteLength(writeSession(half))).toBeLessThanOrEqual(1_200);
  });

  it('is what was written, with the babies set aside and the result that was given last', () => {
    const session = sessionAfter(severalBabies);
    expect(session.aside.length).toBeGreaterThan(0);
    expect(session.last?.finishedAt).toBeGreaterThan(0);
    expect(readSession(writeSession(session))).toMatchObject({ session, damaged: false });
    expect(readSession(writeSession(session)).session).toStrictEqual(session);
  });

  it.each([
    ['first', writtenWhole],
    ['second', writtenInFull],
  ] as const)('that the %s version wrote goes on as it was', (_which, write) => {
    for (const texts of [normalFirstDay.slice(0, 9), severalBabies]) {
      const session = sessionAfter(texts);
      const read = readSession(write(session));
      expect(read.damaged).toBe(false);
      expect(turnOf(read.session, '0', morning + 3_600_000)).toEqual(turnOf(session, '0', morning + 3_600_000));
    }
  });

  it.each([
    { v: 4, lastMessageAt: 1 },
    { v: 2, lastMessageAt: 1, open: { flow: 'first-day-exam', answers: ['who'] } },
    { v: 2, lastMessageAt: 1, open: { answers: [] } },
    { v: 2, lastMessageAt: 1, last: { flow: 'first-day-exam' } },
    { v: 2, lastMessageAt: 1, aside: [null] },
    { v: 2, lastMessageAt: 1, told: {} },
  ])('that is damaged (%j) is begun anew', (stored) => {
    expect(readSession(JSON.stringify(stored))).toMatchObject({ session: newSession, damaged: true });
  });
});
