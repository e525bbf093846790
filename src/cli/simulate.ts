// `pipit simulate`: a plan for a district, a country or the world. Walks examinations by chance for what one costs and how often it is
// urgent, and computes from there; nurses by Erlang's formula, and once more on a simulated clock. Touches no store.
// Next: planned-walks.ts, src/planning/plan.ts, plan-lines.ts.

import { join } from 'node:path';
import type { Published } from '../conversation/book.ts';
import { alertsInBusyTime, type Needs, type Plan, planFor } from '../planning/plan.ts';
import { usualLifetimes } from '../sessions/lifetimes.ts';
import type { Config } from './config.ts';
import { loadPlanning, type Planning } from './load-planning.ts';
import { loadPrevalence } from './load-prevalence.ts';
import { loadPublished } from './load-published.ts';
import { type Clocks, clocksOf } from './plan-clocks.ts';
import { checkFlags, readShares, type SimulateFlags } from './plan-flags.ts';
import { figureLines, type Given, givenLines } from './plan-lines.ts';
import { type PlannedContacts, plannedContacts } from './planned-contacts.ts';
import { channels, type Walked, walkAll } from './planned-walks.ts';

const day = 86_400_000;

/** Exit code 0. Errors: a flag or a file that cannot be used; each says what to do. */
export async function simulate(config: Config, flags: SimulateFlags, print: (line: string) => void): Promise<number> {
  checkFlags(flags);
  const published = loadPublished(config);
  const { byTag, base } = published.catalogues;
  const languages = readShares('languages', flags.languages ?? base, [...byTag.keys()]);
  const shares = { languages, channels: readShares('channels', flags.channels ?? 'sms', channels) };
  const prevalenceFile = flags.prevalence ?? join(config.flows, 'demo', 'prevalence.yaml');
  const walked = walkAll(published, loadPrevalence(prevalenceFile, published), shares, flags);
  const planning = loadPlanning(config.flows);
  const contacts = plannedContacts(config.flows);
  const needs = needsFrom(flags, walked, planning, contacts, published);
  checkSize(needs);
  const plan = planFor(needs);
  const clocks = clocksOf(needs, plan, published.followUp, flags.seed);
  const given: Given = {
    ...{ flags, needs, planning, contacts, walked, ...shares },
    ...{ prevalence: flags.prevalence ?? 'flows/demo/prevalence.yaml', asking: published.followUp },
  };
  if (flags.format === 'json') print(JSON.stringify(asJson(published.version, given, plan, clocks), null, 2));
  else for (const line of [...givenLines(given), '', ...figureLines(given, plan, clocks)]) print(line);
  return 0;
}

/** Nurses at one desk that can be counted in a moment. */
const mostAtOnce = 10_000_000;

function checkSize(needs: Needs): void {
  if (alertsInBusyTime(needs) <= mostAtOnce) return;
  throw new Error(`More than ${mostAtOnce} nurses would be busy at once. Give fewer --births or --contacts, or a lower --peak or --busy.`);
}

function needsFrom(flags: SimulateFlags, walked: Walked, planning: Planning, contacts: PlannedContacts, published: Published): Needs {
  const { assumptions, measured } = planning;
  return {
    birthsPerYear: flags.births,
    contactsPerBaby: flags.contacts ?? contacts.count,
    peakFactor: flags.peak ?? assumptions['peak-factor'].value,
    uses: walked.uses,
    urgentShare: walked.urgentShare,
    standardError: walked.standardError,
    prices: { segmentIn: flags.priceIn, segmentOut: flags.priceOut, call: flags.priceCall },
    measured: {
      turnsPerSecond: measured['turns-per-second'].value,
      onCores: measured['on-cores'].value,
      sessionBytes: measured['redis-session-bytes'].value,
      replyBytes: measured['redis-reply-bytes'].value,
      registerBytesPerExamination: measured['register-bytes-per-examination'].value,
      textsOfItsOwnPerBaby: measured['texts-of-its-own-per-baby'].value,
      segmentsOfItsOwnPerBaby: measured['segments-of-its-own-per-baby'].value,
    },
    busiestCore: assumptions['busiest-core'].value,
    examinationsPerPhone: assumptions['examinations-per-phone'].value,
    replyDays: usualLifetimes.replyMilliseconds / day,
    busyMinutes: flags.busy ?? assumptions['nurse-busy-minutes'].value,
    takenWithinMinutes: flags.within ?? published.followUp.alertTakenWithinMinutes,
    level: flags.level ?? assumptions['service-level'].value,
    desks: flags.desks,
  };
}

function asJson(version: string, { needs, walked, languages, channels: byChannel }: Given, plan: Plan, clocks: Clocks): object {
  const { uses, ...given } = needs;
  return {
    version,
    given: { ...given, languages: Object.fromEntries(languages), channels: Object.fromEntries(byChannel) },
    walked: { uses, walks: walked.walks },
    plan,
    clocks,
  };
}
