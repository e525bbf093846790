// `pipit cost`: what an examination costs in texts, segments, screens, keys and minutes, by language and channel, and what an
// edited copy of the files changes.

import { join } from 'node:path';
import { type Change, type Cost, changesBetween, costsOf } from '../economy/costs.ts';
import { screenLimit } from '../messages/screens.ts';
import type { Config } from './config.ts';
import { loadPrevalence } from './load-prevalence.ts';
import { loadPublished } from './load-published.ts';
import { morning } from './workshop-costs.ts';

export interface CostFlags {
  readonly language?: string;
  readonly prevalence?: string;
  readonly walks: number;
  readonly seed: number;
  readonly secondsPerScreen: number;
  readonly secondsPerCall: number;
  readonly againstFlows?: string;
  readonly againstLocales?: string;
  readonly format: string;
}

/** Exit code 0; with --against, what differs from those files stands below the table. */
export async function cost(config: Config, flags: CostFlags, print: (line: string) => void): Promise<number> {
  const published = loadPublished(config);
  const { byTag } = published.catalogues;
  if (flags.language !== undefined && !byTag.has(flags.language))
    throw new Error(`No language "${flags.language}". Give one of: ${[...byTag.keys()].join(', ')}.`);
  const options = {
    languages: flags.language === undefined ? [...byTag.keys()] : [flags.language],
    prevalence: loadPrevalence(flags.prevalence ?? join(config.flows, 'demo', 'prevalence.yaml'), published),
    walks: whole('walks', flags.walks),
    seed: flags.seed,
    secondsPerExchange: whole('seconds-per-screen', flags.secondsPerScreen),
    secondsPerCall: whole('seconds-per-call', flags.secondsPerCall),
    screen: screenLimit,
    now: morning,
  };
  const costs = costsOf(published, options);
  const changes = await changesAgainst(config, flags, costs, (before) =>
    costsOf(before, { ...options, languages: known(options, before) }),
  );
  if (flags.format === 'json') {
    print(JSON.stringify({ version: published.version, costs, ...(changes === null ? {} : { changes }) }, null, 2));
    return 0;
  }
  print(
    `Of one examination, the result read to its end. Expected: mean of ${options.walks}, seed ${options.seed}. Minutes: ${options.secondsPerExchange} s for each text or screen, without measuring the baby.`,
  );
  print(row(headings));
  for (const one of costs) print(row(cells(one)));
  if (changes?.length === 0) print('Nothing of it differs from the other files.');
  for (const change of changes ?? []) print(changeLine(change));
  return 0;
}

type Options = { readonly languages: readonly string[] };
const known = ({ languages }: Options, { catalogues }: ReturnType<typeof loadPublished>): string[] =>
  languages.filter((tag) => catalogues.byTag.has(tag));

async function changesAgainst(
  config: Config,
  { againstFlows, againstLocales }: CostFlags,
  costs: readonly Cost[],
  price: (published: ReturnType<typeof loadPublished>) => Cost[],
): Promise<Change[] | null> {
  if (againstFlows === undefined && againstLocales === undefined) return null;
  const places = { ...config, flows: againstFlows ?? config.flows, locales: againstLocales ?? config.locales };
  return changesBetween(price(loadPublished(places)), costs);
}

function whole(name: string, value: number): number {
  if (Number.isInteger(value) && value > 0) return value;
  throw new Error(`--${name} must be a whole number above 0.`);
}

const headings = ['language', 'channel', 'way', 'each way', 'segments in', 'out', 'keys', 'minutes', 'calls'];
const widths = [10, 8, 12, 10, 12, 8, 8, 8, 6];
const row = (values: readonly string[]): string =>
  values
    .map((value, at) => value.padEnd(widths[at] ?? 0))
    .join(' ')
    .trimEnd();
const shown = (value: number): string => (Number.isInteger(value) ? String(value) : value.toFixed(1));

function cells({ language, channel, way, exchanges, segmentsIn, segmentsOut, keys, minutes, calls, standardError }: Cost): string[] {
  const spread = standardError === 0 ? '' : `+-${standardError.toFixed(1)}`;
  const sms = channel === 'sms';
  return [
    ...[language, channel, way, `${shown(exchanges)}${spread}`],
    ...(sms ? [shown(segmentsIn), shown(segmentsOut)] : ['-', '-']),
    ...[shown(keys), minutes.toFixed(1), sms ? '-' : shown(calls)],
  ];
}

function changeLine({ before, after }: Change): string {
  const parts = (
    [
      [after.channel === 'sms' ? 'texts each way' : 'screens', before.exchanges, after.exchanges],
      ['segments in', before.segmentsIn, after.segmentsIn],
      ['segments out', before.segmentsOut, after.segmentsOut],
      ['keys', before.keys, after.keys],
    ] as const
  ).flatMap(([what, was, is]) => (was === is ? [] : [`${is > was ? '+' : '-'}${shown(Math.abs(is - was))} ${what}`]));
  return `${after.language} ${after.channel} ${after.way}: ${parts.join(', ')}`;
}
