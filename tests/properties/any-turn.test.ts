// What holds of every turn of the dialog core, from any session that messages can lead to: it has words for all it says, it
// changes nothing it was given, it gives the same again, and it takes a session that was stored as it takes one that was not.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSession, writeSession } from '../../src/conversation/stored-session.ts';
import type { Turn } from '../../src/dialog/proceed.ts';
import type { Say, SayValue } from '../../src/dialog/reply.ts';
import { newSession, type Session } from '../../src/dialog/session.ts';
import { placesOf } from '../../src/messages/message.ts';
import { freeze } from '../support/freeze.ts';
import { book, caller, catalogues, morning, positionOf, take, turnOf, walk } from './any-dialog.ts';
import { anyEvents, commandWords, type Event } from './any-message.ts';
import { answerTowardsTheEnd, hasFinished } from './towards-the-end.ts';

const anyMessages = anyEvents(commandWords(catalogues), 60);
/** What broke these properties once, tried each time before anything else. */
const foundOnce: Event[][] = [
  ['BABY 1 0430 39 3100', '1', ''],
  ['BABY 1 0430 39 3100', 'T369'],
  ['BABY 1 0430 39 3100', 'BABY', '?'],
  ['BABY 1 0430 39 3100', '1', 'BACK'],
  ['LANG', '0'],
  ['LIST', '9XY'],
].map((texts) => messages(...texts));
const wellBaby = ['BABY GIRL 0430 39 3100 T36.8 R44 P132', '0 PREG 0 BIRTH 0', ...Array.from({ length: 10 }, () => '0')];
/** A well baby, whose cold temperature is corrected after the result. */
const wellAfterAll: Event[] = [
  { kind: 'code', rest: ' 4' },
  { kind: 'shown', at: 8 },
  { kind: 'text', text: 'T36.8' },
];
const base = catalogues.byTag.get(catalogues.base)?.messages ?? new Map();

function messages(...texts: readonly string[]): Event[] {
  return texts.map((text) => ({ kind: 'text', text }));
}

function* sayings(value: SayValue | undefined): Generator<Say> {
  if (typeof value !== 'object') return;
  if (Array.isArray(value)) {
    for (const one of value as readonly Say[]) yield* sayings(one);
    return;
  }
  const one = value as Say;
  yield one;
  for (const inner of Object.values(one.values ?? {})) yield* sayings(inner);
}

function* allSaid({ reply }: Turn): Generator<Say> {
  const { question, result } = reply;
  const own = [
    ...reply.told,
    ...(question === undefined ? [] : [question.title, ...question.options.map((one) => one.label), ...question.tail]),
  ];
  for (const one of [...own, ...(result === undefined ? [] : [...result.head, ...result.lines, ...result.foot])]) yield* sayings(one);
}

/** Where 99 may be the number that is asked for, it is an answer. */
function asksNumber(session: Session, now: number): boolean {
  if (session.view !== undefined || session.open === null) return false;
  const { next } = positionOf(session, now);
  return (
    next.kind === 'again' ||
    (next.kind === 'read' && next.fields.some(({ of }) => ['number', 'count'].includes(book.findings.get(of)?.kind ?? '')))
  );
}

describe('any turn', () => {
  it('has words in the base language for all that it says, and something for each of their places', () => {
    fc.assert(
      fc.property(anyMessages, (events) => {
        for (const { turn, text } of walk(events)) {
          for (const { key, values = {} } of allSaid(turn)) {
            const message = base.get(key);
            expect(message, `the message "${key}", said after "${text}"`).toBeDefined();
            for (const place of placesOf(message).keys()) expect(values, `"${key}" after "${text}"`).toHaveProperty([place]);
          }
        }
      }),
      { numRuns: 150, examples: [[wellAfterAll]] },
    );
  });

  it('goes on, when more is asked for, exactly where its page ended', () => {
    fc.assert(
      fc.property(anyMessages, (events) => {
        for (const { before, text, now, turn } of walk(events)) {
          const { reply, session } = turn;
          // An explanation before anything else is one text with the cautions, and has no further page.
          if (reply.question === undefined && (!session.view?.startsWith('explain') || !before.cautioned)) continue;
          const next = { ...reply, page: reply.page + 1 };
          if (!asksNumber(session, now)) expect(turnOf(session, '99', now).reply, `99 after "${text}"`).toEqual(next);
          if (reply.result !== undefined) expect(turnOf(session, '1', now).reply, `1 after "${text}"`).toEqual(next);
        }
      }),
      { numRuns: 60, examples: foundOnce.map((texts) => [texts]) },
    );
  });

  it('after an explanation takes a digit as the list or question that was explained takes it', () => {
    fc.assert(
      fc.property(anyMessages, fc.constantFrom('0', '1', '2', '3'), (events, digit) => {
        for (const { now, turn } of walk(events)) {
          const { session, reply } = turn;
          if (reply.question === undefined || reply.result !== undefined || session.view === 'languages' || session.open === null) continue;
          const plain = turnOf(session, digit, now);
          const explained = turnOf(turnOf(session, '?', now).session, digit, now);
          expect(explained.session.open?.answers).toEqual(plain.session.open?.answers);
          expect(explained.facts).toEqual(plain.facts);
        }
      }),
      { numRuns: 40, examples: foundOnce.map((texts) => [texts, '1']) },
    );
  });

  it('goes on with a result where its first page ended, though an explanation was read in between', () => {
    fc.assert(
      fc.property(anyMessages, fc.nat(2), (events, pages) => {
        for (const { now, turn } of walk(events)) {
          if (turn.reply.result === undefined || turn.reply.page > 0) continue;
          const read = ['?', ...Array.from({ length: pages }, () => '99')].reduce(
            (session, text) => turnOf(session, text, now).session,
            turn.session,
          );
          expect(turnOf(read, '1', now).reply).toEqual({ ...turn.reply, page: 1 });
        }
      }),
      { numRuns: 60 },
    );
  });

  it('tells the nurse at once of all that is urgent in what it took, and the worker before anything else is asked', () => {
    fc.assert(
      fc.property(anyMessages, (events) => {
        for (const { before, text, now, turn } of walk(events)) {
          const { open } = turn.session;
          const earlier = before.open?.id === open?.id ? before.open : null;
          if (open === null || (earlier === null ? open.startedAt !== now : earlier.messages === open.messages)) continue;
          const { interpretation } = positionOf(turn.session, now);
          const urgent = interpretation.classifications.filter((one) => one.urgency === 'urgent').map(({ id }) => id);
          expect(open.alerted, `the nurse after "${text}"`).toEqual(expect.arrayContaining(urgent));
          const isFirst = urgent.length > 0 && (earlier?.alerted ?? []).length === 0;
          if (isFirst) expect(turn.reply.result, `the worker after "${text}"`).toBeDefined();
        }
      }),
      { numRuns: 150, examples: [[messages('BABY 1 0430 39 3100', '1 T77')], [messages('BABY 1 0430 39 3100', '1', 'DANGER 4 T77')]] },
    );
  });

  it('leaves no answer of an examination that ended out of what is recorded of it', () => {
    fc.assert(
      fc.property(anyMessages, (events) => {
        const recorded = new Map<string, number>();
        for (const { text, turn } of walk(events)) {
          for (const fact of turn.facts) if (fact.kind === 'examination') recorded.set(fact.examination.id, fact.examination.messages);
          const { open } = turn.session;
          if (open?.finishedAt === undefined || open.startedAt < morning) continue;
          expect(recorded.get(open.id), `after "${text}"`).toBe(open.messages);
        }
      }),
      { numRuns: 100, examples: [[messages(...wellBaby, 'T77', '1', '2')], [messages(...wellBaby, 'T38.1', '2')]] },
    );
  });

  it('takes a session that was stored as it takes one that was not', () => {
    fc.assert(
      fc.property(anyMessages, (events) => {
        for (const { before, text, dialled, now, turn } of walk(events)) {
          const { session, damaged } = readSession(writeSession(before));
          expect(damaged && before.lastMessageAt !== 0).toBe(false);
          expect(take(session, { text, caller, dialled }, now)).toEqual(turn);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('changes nothing that it was given, and gives the same again', () => {
    fc.assert(
      fc.property(anyMessages, (events) => {
        for (const { before, text, dialled, now, turn } of walk(events)) {
          const given = freeze({ session: structuredClone(before), incoming: { text, caller: { ...caller }, dialled } });
          expect(take(given.session, given.incoming, now)).toEqual(turn);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('stands no further than 80 messages from a finished examination', () => {
    fc.assert(
      fc.property(anyMessages, fc.array(fc.nat(2), { minLength: 80, maxLength: 80 }), (events, choices) => {
        const last = [...walk(events)].at(-1);
        const from = last?.turn.session ?? newSession;
        const now = (last?.now ?? morning) + 1000;
        const begun = from.open === null || hasFinished(from) ? turnOf(from, 'BABY', now).session : from;
        const ended = answerTowardsTheEnd(begun, choices, now);
        expect(hasFinished(ended.session), `after ${ended.messages} messages at "${ended.at}"`).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});
