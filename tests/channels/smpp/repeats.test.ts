// "0" six times in a row is six answers, and "0" delivered again is one.

import { expect, test } from 'vitest';
import { rememberCalls } from '../../../src/channels/smpp/calls.ts';
import { readDelivered } from '../../../src/channels/smpp/fields.ts';
import { STATUS, smpp } from '../../../src/channels/smpp/protocol.ts';
import { rememberRepeats } from '../../../src/channels/smpp/repeats.ts';
import { handClock } from '../../support/hand-clock.ts';
import { textFrom } from '../../support/smsc.ts';

const text = (fields = {}) => readDelivered(new smpp.PDU('deliver_sm', { ...textFrom('+254700000321', '0'), ...fields }));
const named = text({ user_message_reference: 41 });

function remembered(process = 'a') {
  const clock = handClock();
  const repeats = rememberRepeats(process, clock.now);
  const ids: string[] = [];
  const answer = (one = text(), status: number = STATUS.ok, takes = 0) =>
    repeats.answer(one, async (id) => {
      ids.push(id);
      await clock.move(takes);
      return status;
    });
  return { clock, repeats, ids, answer, different: () => new Set(ids).size };
}

test('the same words without a name are another text each time', async () => {
  const { answer, different } = remembered();
  for (let one = 0; one < 6; one += 1) await answer();
  expect(different()).toBe(6);
});

test('a text that comes again while it is answered is answered once', async () => {
  const { repeats } = remembered();
  let answered = (_status: number): void => {};
  const ids: string[] = [];
  const first = repeats.answer(text(), (id) => {
    ids.push(id);
    return new Promise((resolve) => {
      answered = resolve;
    });
  });
  const again = repeats.answer(text(), async (id) => {
    ids.push(id);
    return STATUS.ok;
  });
  answered(STATUS.notNow);
  expect([await first, await again, ids.length]).toEqual([STATUS.notNow, STATUS.notNow, 1]);
});

test.each([
  ['"not now" was said', async (one: ReturnType<typeof remembered>) => one.answer(text(), STATUS.notNow)],
  ['the answer came late', async (one: ReturnType<typeof remembered>) => one.answer(text(), STATUS.ok, 5_001)],
  [
    'the link was lost soon after',
    async (one: ReturnType<typeof remembered>) => {
      await one.answer();
      await one.clock.move(30_000);
      one.repeats.linkLost();
    },
  ],
])('after %s, the next of the same words is the same text, once', async (_name, before) => {
  const one = remembered();
  await before(one);
  await one.answer();
  expect(one.different()).toBe(1);
  await one.answer();
  expect(one.different()).toBe(2);
});

test('a link that is lost long after makes nothing doubtful', async () => {
  const { answer, clock, repeats, different } = remembered();
  await answer();
  await clock.move(61_000);
  repeats.linkLost();
  await answer();
  expect(different()).toBe(2);
});

test('a named text is the same for an hour, in every process', async () => {
  const [one, other] = [remembered('a'), remembered('b')];
  await one.answer(named);
  await other.answer(named);
  expect(other.ids).toEqual(one.ids);
  await one.clock.move(59 * 60_000);
  await one.answer(named);
  expect(one.different()).toBe(1);
  await one.answer(text({ user_message_reference: 42 }));
  await one.clock.move(3_600_000);
  await one.answer(named);
  expect(one.different()).toBe(3);
});

const from = '+254700000321';

test('each screen that was shown makes the same key another answer; until then it is the same one', () => {
  const calls = rememberCalls('a');
  const session = Buffer.from('f00d1234', 'hex');
  const begun = calls.message(from, session, true, '*384#');
  calls.shown(from, begun.dial);
  const first = calls.message(from, session, false, '0');
  expect(calls.message(from, session, false, '0')).toEqual(first);
  calls.shown(from, first.dial);
  const second = calls.message(from, session, false, '0');
  expect(second.dial).toBe(first.dial);
  expect(second.id).not.toBe(first.id);
  expect(calls.message(from, session, true, '*384#').id).not.toBe(begun.id);
});

test('a session that counts tells an answer again even after its screen was shown, in every process', () => {
  const [calls, other] = [rememberCalls('a'), rememberCalls('b')];
  const unit = (count: number) => Buffer.from([9, count << 1]);
  for (const one of [calls, other]) one.message(from, unit(0), true, '*384#');
  const first = calls.message(from, unit(1), false, '0');
  calls.shown(from, first.dial);
  expect(calls.message(from, unit(1), false, '0')).toEqual(first);
  expect(other.message(from, unit(1), false, '0')).toEqual(first);
  expect(calls.message(from, unit(2), false, '0')).toMatchObject({ dial: first.dial });
  expect(calls.message(from, unit(2), false, '0').id).not.toBe(first.id);
});

test('two phones never share a call', () => {
  const calls = rememberCalls('a');
  const session = Buffer.from([1]);
  expect(calls.message(from, session, false, '0').id).not.toBe(calls.message('+254700000322', session, false, '0').id);
});
