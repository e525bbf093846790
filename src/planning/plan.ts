// What a country, or the world, needs: from births, contacts and what one examination costs to turns a second, texts, money, memory,
// the register's growth and nurses on call. Arithmetic and Erlang's formula, no more: each figure follows from those that are given.
// Pure. Next: erlang.ts; src/cli/plan-lines.ts, which says how each was computed.

import { fewestServers, mostErlangs, probabilityWithin } from './erlang.ts';

/** Of one examination, in one language by one channel, means of many. */
export interface Use {
  /** Of all examinations; all shares add up to 1. */
  readonly share: number;
  readonly channel: 'sms' | 'ussd';
  /** Texts each way, or screens. */
  readonly exchanges: number;
  readonly segmentsIn: number;
  readonly segmentsOut: number;
  /** USSD calls; 0 by text. */
  readonly calls: number;
}

export interface Prices {
  readonly segmentIn?: number | undefined;
  readonly segmentOut?: number | undefined;
  readonly call?: number | undefined;
}

/** Figures that were measured, with what they were measured on. */
export interface Measured {
  readonly turnsPerSecond: number;
  /** Cores that gave them, with everything that ran there. */
  readonly onCores: number;
  readonly sessionBytes: number;
  readonly replyBytes: number;
  readonly registerBytesPerExamination: number;
  /** Texts that the program sends of its own accord for one baby, and their segments. */
  readonly textsOfItsOwnPerBaby: number;
  readonly segmentsOfItsOwnPerBaby: number;
}

export interface Needs {
  readonly birthsPerYear: number;
  readonly contactsPerBaby: number;
  /** The busiest hour over the mean one; >= 1. */
  readonly peakFactor: number;
  readonly uses: readonly Use[];
  /** Share of examinations that come out urgent. */
  readonly urgentShare: number;
  /** Of that share. */
  readonly standardError: number;
  readonly prices: Prices;
  readonly measured: Measured;
  /** How far a core may be busy at the peak; above 0, at most 1. */
  readonly busiestCore: number;
  readonly examinationsPerPhone: number;
  /** Days for which a reply is remembered. */
  readonly replyDays: number;
  /** How long a nurse is busy with one alert, mean. */
  readonly busyMinutes: number;
  readonly takenWithinMinutes: number;
  /** Share of urgent alerts that are to be taken in that time. */
  readonly level: number;
  /** Desks that share the alerts evenly, each with its own nurses. */
  readonly desks: number;
}

export interface Desks {
  readonly desks: number;
  /** Alerts at one desk in the time that a nurse is busy with one, at the peak. */
  readonly erlangsEach: number;
  readonly nursesEach: number;
  readonly nurses: number;
  /** Share that is taken in time, by Erlang's formula. */
  readonly within: number;
  /** Nurses of all desks if the share of urgent examinations is two standard errors more. */
  readonly nursesIfMore: number;
}

export interface Plan {
  readonly examinationsPerYear: number;
  readonly turnsPerExamination: number;
  readonly turnsPerSecond: number;
  readonly turnsPerSecondAtPeak: number;
  readonly turnsPerSecondPerCore: number;
  readonly cores: number;
  readonly textsInPerBaby: number;
  readonly textsOutPerBaby: number;
  readonly segmentsInPerBaby: number;
  readonly segmentsOutPerBaby: number;
  readonly screensPerBaby: number;
  readonly callsPerBaby: number;
  /** Null: a price is lacking of what is used. */
  readonly costPerBaby: number | null;
  readonly phones: number;
  readonly redisBytes: number;
  readonly registerBytesPerYear: number;
  readonly alertsPerYear: number;
  readonly alertsPerHourAtPeak: number;
  /** One desk for all. */
  readonly pooled: Desks;
  readonly divided: Desks;
  /** Desks so small that the first nurse alone takes as many in time, and the most alerts that such a desk has. */
  readonly firstIsEnough: { readonly desks: number; readonly erlangs: number };
}

const daysPerYear = 365.25;
const hoursPerYear = 24 * daysPerYear;
const secondsPerYear = 3600 * hoursPerYear;
const minutesPerHour = 60;

/** Errors: a share, factor or time outside its range, from erlang.ts. Flags are looked at before, in src/cli/plan-flags.ts. */
export function planFor(needs: Needs): Plan {
  const { birthsPerYear, contactsPerBaby, peakFactor, measured } = needs;
  const examinationsPerYear = birthsPerYear * contactsPerBaby;
  const turnsPerExamination = meanOf(needs.uses, ({ exchanges }) => exchanges);
  const turnsPerSecond = (examinationsPerYear * turnsPerExamination) / secondsPerYear;
  const turnsPerSecondPerCore = measured.turnsPerSecond / measured.onCores;
  const alertsPerYear = examinationsPerYear * needs.urgentShare;
  const alertsPerHourAtPeak = hourlyAlertsAtPeak(needs);
  const phones = examinationsPerYear / needs.examinationsPerPhone;
  const repliesKept = ((examinationsPerYear * turnsPerExamination) / daysPerYear) * needs.replyDays;
  const ofBaby = perBaby(needs);
  return {
    examinationsPerYear,
    turnsPerExamination,
    turnsPerSecond,
    turnsPerSecondAtPeak: turnsPerSecond * peakFactor,
    turnsPerSecondPerCore,
    cores: Math.max(1, Math.ceil((turnsPerSecond * peakFactor) / (turnsPerSecondPerCore * needs.busiestCore))),
    ...ofBaby,
    costPerBaby: costOf(ofBaby, needs.prices),
    phones,
    redisBytes: phones * measured.sessionBytes + repliesKept * measured.replyBytes,
    registerBytesPerYear: examinationsPerYear * measured.registerBytesPerExamination,
    alertsPerYear,
    alertsPerHourAtPeak,
    pooled: desksFor(1, alertsPerHourAtPeak, needs),
    divided: desksFor(needs.desks, alertsPerHourAtPeak, needs),
    firstIsEnough: smallDesks(needs),
  };
}

type PerBaby = Pick<
  Plan,
  'textsInPerBaby' | 'textsOutPerBaby' | 'segmentsInPerBaby' | 'segmentsOutPerBaby' | 'screensPerBaby' | 'callsPerBaby'
>;

/** Every contact is counted as a whole first examination. */
function perBaby({ uses, contactsPerBaby, measured }: Needs): PerBaby {
  const by = (channel: Use['channel'], of: (use: Use) => number): number =>
    contactsPerBaby * meanOf(uses, (use) => (use.channel === channel ? of(use) : 0));
  const texts = by('sms', ({ exchanges }) => exchanges);
  return {
    textsInPerBaby: texts,
    textsOutPerBaby: texts + measured.textsOfItsOwnPerBaby,
    segmentsInPerBaby: by('sms', ({ segmentsIn }) => segmentsIn),
    segmentsOutPerBaby: by('sms', ({ segmentsOut }) => segmentsOut) + measured.segmentsOfItsOwnPerBaby,
    screensPerBaby: by('ussd', ({ exchanges }) => exchanges),
    callsPerBaby: by('ussd', ({ calls }) => calls),
  };
}

const meanOf = (uses: readonly Use[], of: (use: Use) => number): number => uses.reduce((sum, use) => sum + use.share * of(use), 0);

/** What nobody uses needs no price. */
function costOf({ segmentsInPerBaby, segmentsOutPerBaby, callsPerBaby }: PerBaby, prices: Prices): number | null {
  const parts = [
    [segmentsInPerBaby, prices.segmentIn],
    [segmentsOutPerBaby, prices.segmentOut],
    [callsPerBaby, prices.call],
  ] as const;
  if (parts.some(([count, price]) => count > 0 && price === undefined)) return null;
  return parts.reduce((sum, [count, price]) => sum + count * (price ?? 0), 0);
}

function hourlyAlertsAtPeak({ birthsPerYear, contactsPerBaby, urgentShare, peakFactor }: Needs): number {
  return ((birthsPerYear * contactsPerBaby * urgentShare) / hoursPerYear) * peakFactor;
}

/** Of all desks together, at the peak, in the time that a nurse is busy with one; if two standard errors more come out urgent. */
export function alertsInBusyTime(needs: Needs): number {
  const { urgentShare, standardError, busyMinutes } = needs;
  return (hourlyAlertsAtPeak({ ...needs, urgentShare: Math.min(1, urgentShare + 2 * standardError) }) * busyMinutes) / minutesPerHour;
}

function smallDesks(needs: Needs): Plan['firstIsEnough'] {
  const { busyMinutes, takenWithinMinutes, level } = needs;
  const erlangs = mostErlangs(1, takenWithinMinutes / busyMinutes, level);
  return { desks: Math.max(1, Math.ceil((hourlyAlertsAtPeak(needs) * busyMinutes) / minutesPerHour / erlangs)), erlangs };
}

function desksFor(desks: number, alertsPerHour: number, needs: Needs): Desks {
  const { busyMinutes, takenWithinMinutes, level } = needs;
  const erlangsEach = ((alertsPerHour / desks) * busyMinutes) / minutesPerHour;
  const limit = takenWithinMinutes / busyMinutes;
  const nursesEach = fewestServers(erlangsEach, limit, level);
  return {
    ...{ desks, erlangsEach, nursesEach, nurses: desks * nursesEach },
    within: probabilityWithin(nursesEach, erlangsEach, limit),
    nursesIfMore: desks * fewestServers(alertsInBusyTime(needs) / desks, limit, level),
  };
}
