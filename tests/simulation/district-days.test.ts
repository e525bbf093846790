// A few days of a small invented district, calm and stormy, hold all invariants, come out the same for the same seed, and each invariant
// finds the fault that was put in for it. The whole week is `npm run week`; stormy days are storms.test.ts.

import { describe, expect, it } from 'vitest';
import type { Register, SendText } from '../../src/conversation/ports.ts';
import type { Entry } from '../../src/conversation/records.ts';
import { chanceOf } from './chance.ts';
import { type Days, live, smallDistrict } from './district-days.ts';

const short = { facilities: 3, workers: 9, nurses: 10, births: 40, days: 2, seed: 7, isStormy: false } as const;
const patience = 300_000;

describe('a few days', () => {
  it(
    'break nothing, and are the same again for the same seed',
    async () => {
      const lived = await live(short);
      expect(lived.broken).toEqual([]);
      expect(lived.figures.urgent).toBeGreaterThan(0);
      expect(lived.figures.arrived).toBeGreaterThan(0);
      expect(lived.figures.examinations).toBeGreaterThanOrEqual(lived.figures.finished ?? Number.NaN);
      expect((await live(short)).digest).toBe(lived.digest);
    },
    patience,
  );

  it(
    'break nothing in a storm, and that is the same again too',
    async () => {
      const stormy = { ...smallDistrict, days: 4, births: 16, seed: 3 };
      const lived = await live(stormy);
      expect(lived.broken).toEqual([]);
      expect(lived.happened['processes killed']).toBeGreaterThan(0);
      expect(lived.happened['register: calls refused']).toBeGreaterThan(0);
      expect((await live(stormy)).digest).toBe(lived.digest);
    },
    patience,
  );
});

it(
  'break nothing in a storm where three are asked to take an alert at once',
  async () => {
    const { broken, figures } = await live({ ...smallDistrict, days: 5, births: 16, seed: 4, askedAtOnce: 3 });
    expect(broken).toEqual([]);
    expect(figures['asks of a further person']).toBeGreaterThan(2 * (figures.alerts ?? Number.NaN) - 1);
  },
  patience,
);

/** A register that loses entries of a kind. */
const forgets =
  (isLost: (entry: Entry) => boolean) =>
  (register: Register): Register => ({
    ...register,
    record: (entries) => register.record(entries.filter((entry) => !isLost(entry))),
  });

const faults: readonly (readonly [string, NonNullable<Days['spoil']>, string])[] = [
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
    'an open urgent referral is followed, or somebody was told',
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
    'a text goes out once, and again only when it failed',
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
      const { broken } = await live({ ...short, days: 1, births: 30, spoil });
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
