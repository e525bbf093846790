// What happens next comes soonest first, whatever order it was put in, and what happens at one instant in the order it was put in.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { soonestFirst } from '../../src/planning/soonest.ts';

it('takes out what was put in, soonest first, and what is at one instant in its order', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 20 })), (instants) => {
      const events = soonestFirst<number>();
      for (const [order, at] of instants.entries()) events.add(at, order);
      const sorted = instants.map((at, order) => ({ at, order })).sort((one, other) => one.at - other.at || one.order - other.order);
      const taken = instants.map(() => events.take());
      expect(taken.map((one) => [one?.at, one?.value])).toEqual(sorted.map(({ at, order }) => [at, order]));
      expect(events.take()).toBeUndefined();
    }),
  );
});

it('goes on after it was emptied, and while things are put in between', () => {
  const events = soonestFirst<string>();
  events.add(5, 'five');
  expect(events.take()?.value).toBe('five');
  expect(events.take()).toBeUndefined();
  events.add(3, 'three');
  events.add(1, 'one');
  expect(events.take()?.value).toBe('one');
  events.add(2, 'two');
  expect([events.take()?.value, events.take()?.value]).toEqual(['two', 'three']);
});
