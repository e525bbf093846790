// One text under two message ids, which networks make of it: its words within seconds of their answer are the same text.
// With real stores and two servers: tests/end-to-end/twice-and-refused.test.ts.

import { describe, expect, it } from 'vitest';
import { openStation, textAll, worker } from './station.ts';

describe('a text that a network delivers twice, under two ids', () => {
  const sameTextMilliseconds = 6_000;

  it('seconds apart, is answered the same and counts once, also when the second comes again a day later', async () => {
    const station = openStation({ sameTextMilliseconds });
    await station.text(worker, 'BABY 1 0430 39 3100');
    const [text, one, other] = ['1', 'first-id', 'second-id'];
    const first = await station.text(worker, text, one);
    const written = await station.register.dump();
    expect(await station.text(worker, text, other)).toBe(first);
    station.clock += 86_400_000;
    expect(await station.text(worker, text, other)).toBe(first);
    expect(await station.register.dump()).toEqual(written);
  });

  it('marks no sign of the next question, which it would by its id alone', async () => {
    const shown = async (milliseconds: number, ...answers: string[]): Promise<string> =>
      textAll(openStation({ sameTextMilliseconds: milliseconds }), worker, ['BABY 1 0430 39 3100', '0', ...answers]);
    const once = await shown(0, '2');
    expect(await shown(sameTextMilliseconds, '2', '2')).toBe(once);
    expect(await shown(0, '2', '2')).not.toBe(once);
  });

  it('later than that, is an answer of its own', async () => {
    const station = openStation({ sameTextMilliseconds });
    await station.text(worker, 'BABY 1 0430 39 3100');
    const first = await station.text(worker, '0');
    station.clock += sameTextMilliseconds;
    expect(await station.text(worker, '0')).not.toBe(first);
  });

  it('in a call, is told apart by what was keyed before it', async () => {
    const station = openStation({ sameTextMilliseconds });
    const first = await station.key(worker, 'call', '');
    const second = await station.key(worker, 'call', '1');
    expect(await station.key(worker, 'call', '1*1')).not.toBe(second);
    expect(second).not.toBe(first);
  });
});
