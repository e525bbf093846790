// A short week of a small invented district holds all invariants, comes out the same for the same seed, and each invariant finds
// the fault that was put in for it. The whole week is `npm run week`.

import { describe, expect, it } from 'vitest';
import type { Register, SendText } from '../../src/conversation/ports.ts';
import type { Entry } from '../../src/conversation/records.ts';
import { chanceOf } from './chance.ts';
import { simulate, type WeekOptions } from './week.ts';

const short = { facilities: 3, workers: 9, nurses: 10, births: 40, days: 2, seed: 7 } as const;
const patience = 300_000;

describe('a short week', () => {
  it(
    'breaks nothing, and is the same again for the same seed',
    async () => {
      const week = await simulate(short);
      expect(week.broken).toEqual([]);
      expect(week.figures.urgent).toBeGreaterThan(0);
      expect(week.figures.arrived).toBeGreaterThan(0);
      expect(week.figures.examinations).toBeGreaterThanOrEqual(week.figures.finished ?? Number.NaN);
      expect((await simulate(short)).digest).toBe(week.digest);
    },
    patience,
  );
});

/** A register that loses entries of a kind. */
const forgets =
  (isLost: (entry: Entry) => boolean) =>
  (register: Register): Register => ({
    ...register,
    record: (entries) => register.record(entries.filter((entry) => !isLost(entry))),
  });

const faults: readonly (readonly [string, NonNullable<WeekOptions['spoil']>, string])[] = [
  [
    'a register that forgets what falls due for alerts',
    { register: forgets((entry) => entry.kind === 'due' && entry.work === 'alert-not-taken') },
    'an alert that nobody has rings somebody yet',
  ],
  ['a register that forgets alerts', { register: forgets(({ kind }) => kind === 'alert') }, 'an urgent examination has an alert'],
  [
    'a register that forgets the text to the nurse',
    { register: forgets(({ kind, key }) => kind === 'text' && key.startsWith('nurse:')) },
    'an alert has the text that told of it',
  ],
  [
    'work that is answered by nothing',
    {
      register: (register) => ({
        ...register,
        workDue: (at, limit, _answer, failed) => register.workDue(at, limit, () => ({ entries: [], next: { kind: 'done' } }), failed),
      }),
    },
    'an alert that nobody has rings somebody yet',
  ],
  [
    'a gateway that is given every text twice',
    {
      send:
        (send: SendText): SendText =>
        async (text) => {
          await send(text);
          return send(text);
        },
    },
    'a text goes out once for its key',
  ],
  [
    'a register that loses the referral',
    { register: forgets((entry) => entry.kind === 'due' && entry.work === 'referral-left') },
    'an open urgent referral is followed, or somebody was told',
  ],
];

describe('the invariants', () => {
  it.each(faults)(
    'find %s',
    async (_, spoil, claim) => {
      const { broken } = await simulate({ ...short, days: 1, births: 30, spoil });
      expect(broken.map((one) => one.slice(0, claim.length))).toContain(claim);
    },
    patience,
  );
});

it('chance of one seed is the same each time, and within its bounds', () => {
  const [one, other] = [chanceOf(3), chanceOf(3)];
  for (let n = 0; n < 1000; n += 1) {
    const drawn = one.whole(2, 5);
    expect(drawn).toBe(other.whole(2, 5));
    expect(drawn).toBeGreaterThanOrEqual(2);
    expect(drawn).toBeLessThanOrEqual(5);
  }
});
