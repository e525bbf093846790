// What an examination costs in every language, by text and by call: at its quickest, asked step by step with nothing found, with
// everything marked, and on average. And what differs between two versions of the files. Next: walk.ts, manners.ts.

import type { Published } from '../conversation/book.ts';
import { bindBook } from '../conversation/book.ts';
import type { Channel } from '../conversation/ports.ts';
import type { ScreenLimit } from '../messages/screens.ts';
import { chanceFrom } from './chance.ts';
import { allMarked, allNormal, byChance, type Prevalence, quickest } from './manners.ts';
import { type Phone, type Spent, walk } from './walk.ts';

export const ways = ['quickest', 'all normal', 'all marked', 'expected'] as const;
export type Way = (typeof ways)[number];

/** Of one examination. `expected` is the mean of many, so that its counts have decimals. */
export interface Cost {
  readonly language: string;
  readonly channel: Channel;
  readonly way: Way;
  readonly exchanges: number;
  readonly segmentsIn: number;
  readonly segmentsOut: number;
  readonly keys: number;
  /** Handling the phone, without measuring the baby. */
  readonly minutes: number;
  /** Calls that it takes when one lasts so long; 0 by text. */
  readonly calls: number;
  /** Of the mean number of exchanges; 0 where there is one examination. */
  readonly standardError: number;
  /** Share of the examinations that come out urgent. */
  readonly urgentShare: number;
}

export interface CostOptions {
  readonly languages: readonly string[];
  /** Left out: all of them. Everything marked takes seconds to walk, what is asked with nothing found takes none. */
  readonly ways?: readonly Way[];
  /** Left out: both. */
  readonly channels?: readonly Channel[];
  readonly prevalence: Prevalence;
  /** Examinations that the expected cost is the mean of. */
  readonly walks: number;
  readonly seed: number;
  readonly secondsPerExchange: number;
  readonly secondsPerCall: number;
  readonly screen: ScreenLimit;
  readonly now: number;
}

const channels: readonly Channel[] = ['sms', 'ussd'];

export function costsOf(published: Published, options: CostOptions): Cost[] {
  const book = bindBook(published);
  const { catalogues } = published;
  return options.languages.flatMap((language) =>
    (options.channels ?? channels).flatMap((channel) => {
      const phone: Phone = { book, catalogues, language, channel, screen: options.screen, now: options.now };
      const words = { catalogues, language };
      const chance = chanceFrom(options.seed);
      const manners = {
        quickest: [quickest(words, book)],
        'all normal': [allNormal(words)],
        'all marked': [allMarked(words)],
        expected: Array.from({ length: options.walks }, () => byChance(words, options.prevalence, chance)),
      } as const;
      return (options.ways ?? ways).map((way) => ({
        ...{ language, channel, way },
        ...meanOf(
          manners[way].map((manner) => walk(manner, phone)),
          channel,
          options,
        ),
      }));
    }),
  );
}

function meanOf(all: readonly Spent[], channel: Channel, options: CostOptions): Omit<Cost, 'language' | 'channel' | 'way'> {
  const mean = (of: (one: Spent) => number): number => all.reduce((sum, one) => sum + of(one), 0) / all.length;
  const seconds = ({ exchanges }: Spent): number => exchanges * options.secondsPerExchange;
  const exchanges = mean((one) => one.exchanges);
  const variance = all.length < 2 ? 0 : all.reduce((sum, one) => sum + (one.exchanges - exchanges) ** 2, 0) / (all.length - 1);
  return {
    exchanges,
    segmentsIn: mean((one) => one.segmentsIn),
    segmentsOut: mean((one) => one.segmentsOut),
    keys: mean((one) => one.keys),
    minutes: mean(seconds) / 60,
    calls: channel === 'sms' ? 0 : mean((one) => Math.ceil(seconds(one) / options.secondsPerCall)),
    standardError: Math.sqrt(variance / all.length),
    urgentShare: mean(({ urgency }) => (urgency === 'urgent' ? 1 : 0)),
  };
}

export interface Change {
  readonly before: Cost;
  readonly after: Cost;
}

/** The costs that differ. A language that only one of the two versions has is left out. */
export function changesBetween(before: readonly Cost[], after: readonly Cost[]): Change[] {
  const keyOf = ({ language, channel, way }: Cost): string => `${language} ${channel} ${way}`;
  const known = new Map(before.map((one) => [keyOf(one), one]));
  return after.flatMap((one) => {
    const was = known.get(keyOf(one));
    const isSame =
      was === undefined ||
      (was.exchanges === one.exchanges &&
        was.segmentsIn === one.segmentsIn &&
        was.segmentsOut === one.segmentsOut &&
        was.keys === one.keys);
    return isSame ? [] : [{ before: was, after: one }];
  });
}
