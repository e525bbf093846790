// No more texts a second than the gateway takes, none lost, in order.

import { expect, test, vi } from 'vitest';
import { paced } from '../../src/channels/pace.ts';
import { machineTiming } from '../../src/channels/timing.ts';
import { handClock } from '../support/hand-clock.ts';

test('texts that come at once go out evenly, in order', async () => {
  const clock = handClock();
  const began = clock.now();
  const sent: (readonly [string, number])[] = [];
  const send = paced(
    async ({ key }) => {
      sent.push([key, clock.now() - began]);
      return { kind: 'unknown' };
    },
    4,
    clock,
  );
  const all = Promise.all(['a', 'b', 'c'].map((key) => send({ key, to: '+254700000321', text: '' })));
  await clock.move(10_000);
  await all;
  expect(sent).toEqual([
    ['a', 0],
    ['b', 250],
    ['c', 500],
  ]);
  await send({ key: 'd', to: '+254700000321', text: '' });
  expect(sent.at(-1)).toEqual(['d', 10_000]);
});

test('a wall clock that is put back by hours holds nothing up', () => {
  const before = machineTiming.now();
  vi.useFakeTimers({ now: Date.now() - 3 * 3_600_000, toFake: ['Date'] });
  expect(machineTiming.now()).toBeGreaterThanOrEqual(before);
  vi.useRealTimers();
});
