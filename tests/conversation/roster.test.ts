import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Facility, Person } from '../../src/conversation/ports.ts';
import { emptyRoster, type RosterData, rosterOf } from '../../src/conversation/roster.ts';
import type { Shift } from '../../src/on-call/rota.ts';

/** Invented people at invented places. */
const noon = Date.parse('2026-11-25T12:00:00+03:00');
const facility = (id: string, above: string | null, zone = 'Africa/Nairobi'): Facility => ({
  id,
  name: id,
  zone,
  nurse: '+254700555000',
  above,
  refersTo: above,
  travelMinutes: null,
});
const person = (phone: string, at: string, ...roles: Person['roles'][number][]): Person => ({
  phone,
  name: phone,
  roles,
  facility: at,
  language: 'en',
  mayInject: false,
});
const always = (at: string, phone: string, order = 1, from = 0, to = 1440): Shift => ({
  facility: at,
  days: { kind: 'weekly', weekdays: [1, 2, 3, 4, 5, 6, 7] },
  fromMinute: from,
  toMinute: to,
  phone,
  order,
});
const data: RosterData = {
  facilities: [facility('post', 'centre'), facility('centre', 'hospital'), facility('hospital', null, 'UTC')],
  people: [
    person('w1', 'post', 'worker'),
    person('w2', 'post', 'nurse', 'worker'),
    person('n1', 'centre', 'nurse'),
    person('n2', 'hospital', 'nurse'),
    person('c1', 'hospital', 'coordinator'),
    person('c2', 'centre', 'coordinator', 'nurse'),
  ],
  shifts: [
    always('hospital', 'n2', 2),
    always('hospital', 'n1', 1),
    always('centre', 'n1'),
    always('centre', 'c2', 2, 600, 660),
    always('post', 'gone'),
  ],
  leave: [],
};
const roster = rosterOf(data);
const phones = (people: readonly Person[]): string => people.map(({ phone }) => phone).join(' ');

describe('a roster', () => {
  it('finds people by number and facilities by id, and nothing that only looks like one', () => {
    expect(roster.find('w1')?.facility).toBe('post');
    expect(roster.facility('centre')?.above).toBe('hospital');
    for (const name of ['__proto__', 'constructor', '']) expect([roster.find(name), roster.facility(name)]).toEqual([undefined, undefined]);
  });

  it('asks the facility first and then those above it, nobody twice, nobody unknown', () => {
    expect(phones(roster.onCall('post', noon))).toBe('n1 n2');
    expect(phones(roster.onCall('hospital', noon))).toBe('n1 n2');
    expect(roster.onCall('nowhere', noon)).toEqual([]);
  });

  it('goes by the clock of the facility whose shift it is', () => {
    expect(phones(roster.onCall('centre', Date.parse('2026-11-25T07:30:00Z')))).toBe('n1 c2 n2');
  });

  it('names coordinators nearest first, and workers of the facility alone', () => {
    expect(phones(roster.coordinators('post'))).toBe('c2 c1');
    expect(phones(roster.workers('post'))).toBe('w1 w2');
    expect(rosterOf(emptyRoster).coordinators('post')).toEqual([]);
  });

  it('comes to an end whoever stands above whom, and names nobody twice', () => {
    const ids = ['a', 'b', 'c', 'd'];
    const aboves = fc.tuple(...ids.map(() => fc.option(fc.constantFrom(...ids, 'nowhere'), { nil: null })));
    fc.assert(
      fc.property(aboves, fc.constantFrom(...ids), (above, asked) => {
        const people = ids.map((id) => person(`n-${id}`, id, 'nurse', 'coordinator'));
        const shifts = ids.flatMap((id) => [always(id, `n-${id}`), always(id, 'n-a', 2)]);
        const some = rosterOf({ facilities: ids.map((id, index) => facility(id, above[index] ?? null)), people, shifts, leave: [] });
        for (const found of [some.onCall(asked, noon), some.coordinators(asked)]) {
          expect(found[0]?.phone).toBe(`n-${asked}`);
          expect(new Set(found).size).toBe(found.length);
        }
      }),
    );
  });
});
