// The walks that a plan rests on: what an examination costs in each language by each channel, and how often one comes out urgent.
// Next: simulate.ts; src/economy/costs.ts, which walks.

import type { Published } from '../conversation/book.ts';
import type { Channel } from '../conversation/ports.ts';
import { costsOf } from '../economy/costs.ts';
import type { Prevalence } from '../economy/manners.ts';
import { screenLimit } from '../messages/screens.ts';
import type { Use } from '../planning/plan.ts';
import type { SimulateFlags } from './plan-flags.ts';
import { morning } from './workshop-costs.ts';

export const channels: readonly Channel[] = ['sms', 'ussd'];

/** What the walks came to. */
export interface Walked {
  readonly uses: readonly Use[];
  readonly urgentShare: number;
  /** Of the urgent share, by chance of the walks alone. */
  readonly standardError: number;
  readonly walks: number;
}

export interface Shares {
  readonly languages: ReadonlyMap<string, number>;
  readonly channels: ReadonlyMap<string, number>;
}

/**
 * Of a share that was counted. Few walks that found nothing leave it open: they do not make it certain.
 *
 * Source  Agresti and Coull, 1998, from memory: two more of each kind before the usual formula.
 */
export function errorOfShare(found: number, walks: number): number {
  const counted = walks + 4;
  const share = (found + 2) / counted;
  return Math.sqrt((share * (1 - share)) / counted);
}

/** Each language and channel from a seed of its own, so that all babies count once for the urgent share. */
export function walkAll(
  published: Published,
  prevalence: Prevalence,
  shares: Shares,
  flags: Pick<SimulateFlags, 'walks' | 'seed' | 'secondsPerScreen' | 'secondsPerCall'>,
): Walked {
  const costs = [...shares.languages].flatMap(([language, ofLanguage], at) =>
    [...shares.channels].map(([channel, ofChannel], beside) => {
      const options = {
        ...{ languages: [language], channels: [channel as Channel], ways: ['expected'] as const, prevalence, walks: flags.walks },
        ...{ seed: flags.seed + at * channels.length + beside, screen: screenLimit, now: morning },
        ...{ secondsPerExchange: flags.secondsPerScreen, secondsPerCall: flags.secondsPerCall },
      };
      return costsOf(published, options).map((cost) => ({ cost, share: ofLanguage * ofChannel }));
    }),
  );
  const all = costs.flat();
  const walks = all.length * flags.walks;
  const urgentShare = all.reduce((sum, { cost }) => sum + cost.urgentShare, 0) / all.length;
  return {
    uses: all.map(({ cost: { channel, exchanges, segmentsIn, segmentsOut, calls }, share }) => ({
      ...{ share, channel, exchanges, segmentsIn, segmentsOut, calls },
    })),
    ...{ urgentShare, walks, standardError: errorOfShare(urgentShare * walks, walks) },
  };
}
