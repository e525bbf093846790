// When something is killed, and what: moments drawn from a seed. A moment is the passing of a piece to or from a store or the
// gateway; each victim has moments of its own, so that two may die at once. Next: end-to-end-killed-processes.ts.

export const victims = ['server', 'work', 'redis', 'postgres'] as const;
export type Victim = (typeof victims)[number];

/** Of the piece at which something dies: lost before it arrives, or arrived. */
export type When = 'before' | 'after';

export interface Moments {
  /** To be called with each piece that has to do with the victim; when this is the moment, says so. */
  pass(victim: Victim): When | null;
  /** Kills still to come. */
  remaining(): number;
  /** Kills that each victim had. */
  had(): Readonly<Record<Victim, number>>;
}

/** Of each hundred kills, and beyond how many of its pieces the next one may not lie. */
const plan: Readonly<Record<Victim, { readonly share: number; readonly farthestPiece: number }>> = {
  server: { share: 38, farthestPiece: 60 },
  work: { share: 14, farthestPiece: 40 },
  redis: { share: 24, farthestPiece: 100 },
  postgres: { share: 24, farthestPiece: 400 },
};

export function drawMoments(random: () => number, kills: number): Moments {
  const draw = (victim: Victim): number => 1 + Math.floor(random() * plan[victim].farthestPiece);
  const others = victims.filter((victim) => victim !== 'server');
  const shares = new Map<Victim, number>(others.map((victim) => [victim, Math.floor((kills * plan[victim].share) / 100)]));
  const ofOthers = [...shares.values()].reduce((sum, one) => sum + one, 0);
  shares.set('server', kills - ofOthers);
  const left = new Map(shares);
  const pieces = new Map(victims.map((victim) => [victim, draw(victim)]));
  return {
    pass(victim) {
      const kill = left.get(victim) ?? 0;
      const piece = (pieces.get(victim) ?? 0) - 1;
      pieces.set(victim, piece);
      if (piece > 0 || kill === 0) return null;
      left.set(victim, kill - 1);
      pieces.set(victim, draw(victim));
      return random() < 0.5 ? 'before' : 'after';
    },
    remaining: () => [...left.values()].reduce((sum, one) => sum + one, 0),
    had: () => {
      const had = (victim: Victim): number => (shares.get(victim) ?? 0) - (left.get(victim) ?? 0);
      return { server: had('server'), work: had('work'), redis: had('redis'), postgres: had('postgres') };
    },
  };
}
