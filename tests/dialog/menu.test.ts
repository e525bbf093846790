import { describe, expect, it } from 'vitest';
import { addAnswer, beginExamination, finish } from '../../src/dialog/examination.ts';
import { chosen, menuItems, menuQuestion } from '../../src/dialog/menu.ts';
import { newSession, type Session } from '../../src/dialog/session.ts';
import { book, caller, flow, minutesAt, now, stepOf } from './first-day.ts';

const phone = '+254700555101';
const halfway = (at: number) =>
  addAnswer(beginExamination(flow.id, phone, at), stepOf('who'), {
    values: { sex: 'girl', born: minutesAt('2026-11-25T04:30'), gestation: '39', 'birth-weight': 3100 },
  });
const actions = (session: Session): string[] =>
  menuItems(session, caller, book, now).map(({ action }) =>
    action.kind === 'go-on' ? `go-on ${action.id.split('-').at(-1)}` : action.kind,
  );

describe('the menu', () => {
  it('of a phone without a baby begins with a new one', () => {
    expect(actions(newSession)[0]).toBe('new-baby');
    expect(actions(newSession)).not.toContain('result');
  });

  it('offers the baby in hand first, then a new one, then those set aside', () => {
    const list = actions({ ...newSession, open: halfway(now), aside: [halfway(now - 1000), halfway(now - 2000)] });
    expect(list.slice(0, 2)).toEqual([`go-on ${now}`, 'new-baby']);
    expect(list.filter((action) => action.startsWith('go-on'))).toEqual([`go-on ${now}`, `go-on ${now - 1000}`, `go-on ${now - 2000}`]);
  });

  it('offers the last result once there is one', () => {
    expect(actions({ ...newSession, open: finish(halfway(now), now) })).toContain('result');
    expect(actions({ ...newSession, open: finish(halfway(now), now) })).not.toContain(`go-on ${now}`);
  });

  it('has a digit for every item, however many babies wait', () => {
    const aside = Array.from({ length: 12 }, (_, at) => halfway(now - 1000 * (at + 1)));
    const { options } = menuQuestion({ ...newSession, open: halfway(now), aside }, caller, book, now);
    expect(options.map(({ digit }) => digit)).toEqual(options.map((_, at) => String(at + 1)));
    expect(options.length).toBeLessThanOrEqual(9);
  });

  it('is the same each time it is asked for, so that its digits keep their meaning', () => {
    const session = { ...newSession, open: halfway(now), aside: [halfway(now - 1000)] };
    expect(menuItems(session, caller, book, now)).toEqual(menuItems(session, caller, book, now));
  });

  it.each([
    ['1', 'a'],
    ['2', 'b'],
    ['3', undefined],
    ['0', undefined],
    ['12', undefined],
    ['-1', undefined],
    ['', undefined],
    ['__proto__', undefined],
    ['length', undefined],
  ])('%j chooses %j of two', (text, item) => {
    expect(chosen(['a', 'b'], text)).toBe(item);
  });
});
