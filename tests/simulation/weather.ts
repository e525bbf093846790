// What the stores and the gateway do to the application, from a seed: they are away or slow for a while, do what they were asked and
// lose the answer, do it long after nobody waits any more; processes die under a call. Rates are invented, far above real ones.
// Next: line.ts, which meets it.

import type { Chance } from './chance.ts';
import { DAY, HOUR, MINUTE, SECOND } from './times.ts';

export type Place = 'sessions' | 'register' | 'gateway';

/** What one call meets. */
export interface Met {
  /** Before it is done, and after. */
  readonly there: number;
  readonly back: number;
  readonly does: 'it' | 'nothing';
  readonly answers: 'truly' | 'with an error';
  /** The process that called dies as it calls. */
  readonly kills: boolean;
}

export interface Weather {
  meet(place: Place, now: number): Met;
  /** How often each thing happened. */
  readonly happened: Readonly<Record<string, number>>;
}

interface Spell {
  readonly kind: 'away' | 'slow' | 'loses answers';
  readonly place: Place;
  readonly from: number;
  readonly to: number;
}

/** Of each kind of spell: how many a day, and the longest. */
const spells = [
  { kind: 'away', place: 'register', perDay: 6, longest: 45 * MINUTE },
  { kind: 'slow', place: 'register', perDay: 2, longest: 10 * MINUTE },
  { kind: 'loses answers', place: 'register', perDay: 2, longest: 5 * MINUTE },
  { kind: 'away', place: 'sessions', perDay: 2, longest: 6 * MINUTE },
  { kind: 'slow', place: 'sessions', perDay: 2, longest: 5 * MINUTE },
  { kind: 'away', place: 'gateway', perDay: 2, longest: 5 * MINUTE },
  { kind: 'loses answers', place: 'gateway', perDay: 2, longest: 10 * MINUTE },
] as const;
const rates = { kills: 0.002, losesAnswer: 0.004, late: 0.004 };

export function calm(): Weather {
  return { meet: () => ({ there: 0, back: 0, does: 'it', answers: 'truly', kills: false }), happened: {} };
}

/** Storms until `until`, from then on fair: what happens then must come right by itself. */
export function stormy(chance: Chance, start: number, until: number): Weather {
  const drawn = spellsOf(chance, start, until);
  const happened: Record<string, number> = {};
  const count = (what: string): true => {
    happened[what] = (happened[what] ?? 0) + 1;
    return true;
  };
  return {
    happened,
    meet(place, now) {
      const usual = place === 'gateway' ? chance.whole(50, 800) : chance.whole(1, 12);
      const met: Met = { there: usual, back: usual, does: 'it', answers: 'truly', kills: false };
      if (now >= until) return met;
      const spell = drawn.find((one) => one.place === place && one.from <= now && now < one.to)?.kind;
      const kills = chance.is(rates.kills) && count('processes killed');
      if (spell === 'away') {
        count(`${place}: calls refused`);
        return { ...met, does: 'nothing', answers: 'with an error', kills };
      }
      if ((spell === 'loses answers' && chance.is(0.5)) || chance.is(rates.losesAnswer)) {
        count(`${place}: answers lost`);
        return { ...met, answers: 'with an error', kills };
      }
      if (chance.is(rates.late)) {
        count(`${place}: calls late`);
        return { ...met, there: chance.whole(3, 40) * SECOND, kills };
      }
      if (spell === 'slow') {
        count(`${place}: calls slow`);
        return { ...met, there: chance.whole(200, 4_000), back: chance.whole(200, 2_000), kills };
      }
      return { ...met, kills };
    },
  };
}

function spellsOf(chance: Chance, start: number, until: number): Spell[] {
  return spells.flatMap(({ kind, place, perDay, longest }) => {
    const drawn: Spell[] = [];
    const between = DAY / perDay;
    for (let from = start + chance.next() * between; from < until; from += chance.next() * 2 * between + HOUR / 2) {
      drawn.push({ kind, place, from, to: Math.min(until, from + chance.whole(20 * SECOND, longest)) });
    }
    return drawn;
  });
}
