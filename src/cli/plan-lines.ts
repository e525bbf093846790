// What `pipit simulate` prints: what was given and where from, then each figure with how it was computed, one a line.
// Next: simulate.ts; shown-numbers.ts, how a number is written.

import type { FollowUp } from '../on-call/follow-up.ts';
import type { Observed } from '../planning/observed.ts';
import type { Desks, Needs, Plan } from '../planning/plan.ts';
import type { Planning } from './load-planning.ts';
import type { Clocks } from './plan-clocks.ts';
import type { SimulateFlags } from './plan-flags.ts';
import type { PlannedContacts } from './planned-contacts.ts';
import type { Shares, Walked } from './planned-walks.ts';
import { bytes, count, percent, shown } from './shown-numbers.ts';

export interface Given extends Shares {
  readonly flags: SimulateFlags;
  readonly needs: Needs;
  readonly planning: Planning;
  readonly contacts: PlannedContacts;
  readonly walked: Walked;
  /** The file, as it is named. */
  readonly prevalence: string;
  /** As follow-up.yaml has it. */
  readonly asking: Pick<FollowUp, 'alertAskedAtOnce' | 'alertTakenWithinMinutes'>;
}

/** The alert, and that another has taken it. */
const textsOfOneMore = 2;

type Row = readonly [name: string, value: string, how: string];

const nameWidth = 38;
const valueWidth = 20;
const lineOf = ([name, value, how]: Row): string => `${name.padEnd(nameWidth)} ${value.padEnd(valueWidth)} ${how}`.trimEnd();
const asFlag = (flag: number | string | undefined, otherwise: string): string => (flag === undefined ? otherwise : 'given');

export function givenLines(given: Given): string[] {
  const { flags, needs, planning, contacts, walked, asking } = given;
  const { assumptions, measured } = planning;
  const rows: Row[] = [
    ['births a year', count(needs.birthsPerYear), 'given'],
    [
      'examinations of a baby',
      shown(needs.contactsPerBaby),
      asFlag(flags.contacts, `the first day and the schedule ${contacts.schedule}, each counted as a whole first examination`),
    ],
    ['peak factor', shown(needs.peakFactor), asFlag(flags.peak, assumptions['peak-factor'].source)],
    ['languages', sharesIn(given.languages), asFlag(flags.languages, 'the base of the wording')],
    ['channels', sharesIn(given.channels), asFlag(flags.channels, 'all by text')],
    [
      'urgent examinations',
      `${percent(needs.urgentShare)} +-${percent(needs.standardError)}`,
      `of ${count(walked.walks)} walks by the shares in ${given.prevalence}, seed ${flags.seed}; +- one standard error`,
    ],
    ['a nurse is busy', `${shown(needs.busyMinutes)} min`, asFlag(flags.busy, assumptions['nurse-busy-minutes'].source)],
    ['alerts taken within', `${shown(needs.takenWithinMinutes)} min`, asFlag(flags.within, 'taken-within of follow-up.yaml')],
    ['of alerts, at least', percent(needs.level), asFlag(flags.level, assumptions['service-level'].source)],
    ['examinations of a phone, a year', shown(needs.examinationsPerPhone), assumptions['examinations-per-phone'].source],
    ['busiest core', percent(needs.busiestCore), assumptions['busiest-core'].source],
    ['turns a second', shown(measured['turns-per-second'].value), measured['turns-per-second'].how],
    ['on cores', shown(measured['on-cores'].value), measured['on-cores'].how],
    ['a session in Redis', `${count(needs.measured.sessionBytes)} bytes`, measured['redis-session-bytes'].how],
    ['a remembered reply in Redis', `${count(needs.measured.replyBytes)} bytes`, measured['redis-reply-bytes'].how],
    [
      'an examination in the register',
      `${count(needs.measured.registerBytesPerExamination)} bytes`,
      measured['register-bytes-per-examination'].how,
    ],
    ['texts of its own, a baby', shown(needs.measured.textsOfItsOwnPerBaby), measured['texts-of-its-own-per-baby'].how],
    ['their segments', shown(needs.measured.segmentsOfItsOwnPerBaby), measured['segments-of-its-own-per-baby'].how],
    ['nurses asked at once', count(asking.alertAskedAtOnce), 'at-once of follow-up.yaml'],
    ['the next nurse is asked after', `${shown(asking.alertTakenWithinMinutes)} min`, 'taken-within of follow-up.yaml'],
  ];
  return ['Given:', ...rows.map(lineOf)];
}

export function figureLines(given: Given, plan: Plan, clocks: Clocks): string[] {
  const { needs } = given;
  const rows: Row[] = [
    ['examinations a year', shown(plan.examinationsPerYear), 'births x examinations of a baby'],
    ['turns of an examination', shown(plan.turnsPerExamination), 'mean of the walks, by language and channel'],
    ['turns a second, mean', shown(plan.turnsPerSecond), 'examinations x turns / seconds of a year'],
    ['turns a second, peak', shown(plan.turnsPerSecondAtPeak), 'mean x peak factor'],
    [
      'cores',
      count(plan.cores),
      `peak / (${shown(plan.turnsPerSecondPerCore)} turns a second a core x busiest core), rounded up; servers, Redis and PostgreSQL together`,
    ],
    ...messageRows(needs, plan),
    costRow(given, plan),
    ['Redis memory', bytes(plan.redisBytes), `${shown(plan.phones)} phones x a session, and the replies of ${shown(needs.replyDays)} days`],
    ['register growth a year', bytes(plan.registerBytesPerYear), 'examinations x an examination in the register'],
    ['urgent alerts a year', shown(plan.alertsPerYear), 'examinations x urgent'],
    ['urgent alerts an hour, peak', shown(plan.alertsPerHourAtPeak), 'alerts / hours of a year x peak factor'],
    ...nurseRows(given, plan, clocks),
  ];
  return ['Comes to:', ...rows.map(lineOf)];
}

function messageRows({ birthsPerYear }: Needs, plan: Plan): Row[] {
  const a = (perBaby: number): string => shown(perBaby * birthsPerYear);
  const own = 'replies, and texts of its own';
  const row = (name: string, perBaby: number, how: string): Row[] => [
    [`${name} of a baby`, shown(perBaby), how],
    [`${name} a year`, a(perBaby), 'of a baby x births'],
  ];
  return [
    ...row('texts in', plan.textsInPerBaby, 'examinations of a baby x turns by text'),
    ...row('texts out', plan.textsOutPerBaby, own),
    ...row('segments in', plan.segmentsInPerBaby, 'as the texts in, measured in segments'),
    ...row('segments out', plan.segmentsOutPerBaby, own),
    ...row('USSD calls', plan.callsPerBaby, `examinations of a baby x calls, ${shown(plan.screensPerBaby)} screens of a baby`),
  ];
}

function costRow({ flags: { priceIn, priceOut, priceCall, currency } }: Given, { costPerBaby }: Plan): Row {
  if (costPerBaby === null)
    return ['cost of a baby', 'not known', 'give --price-in and --price-out of a segment, --price-call of a USSD call'];
  const prices = [
    ['segment in', priceIn],
    ['segment out', priceOut],
    ['call', priceCall],
  ] as const;
  const said = prices.flatMap(([what, price]) => (price === undefined ? [] : [`${price} a ${what}`]));
  return ['cost of a baby', `${shown(costPerBaby)} ${currency ?? ''}`.trim(), `at ${said.join(', ')}, as given`];
}

function nurseRows({ needs, asking }: Given, { pooled, divided, firstIsEnough }: Plan, clocks: Clocks): Row[] {
  const { takenWithinMinutes, busyMinutes } = needs;
  const inTime = `within ${shown(takenWithinMinutes)} min`;
  const rows = (name: string, desks: Desks, observed: Observed | null): Row[] => [
    [
      `nurses on call, ${name}`,
      count(desks.nurses),
      `Erlang C: ${shown(desks.erlangsEach)} alerts at a desk in ${shown(busyMinutes)} min, ${count(desks.nursesEach)} on call at each; whoever is free takes the next`,
    ],
    [`  taken ${inTime}`, percent(desks.within), '1 - C exp(-(nurses - alerts) x time / busy time)'],
    ['  the same on a simulated clock', ...clockOf(observed)],
    ['  nurses if urgent is more', count(desks.nursesIfMore), 'two standard errors more examinations come out urgent'],
  ];
  const { alertAskedAtOnce: atOnce } = asking;
  const first = atOnce === 1 ? 'the first' : `the first ${count(atOnce)}`;
  const turn: Row[] = [
    ['  nurses of a desk asked in turn', ...clockOf(clocks.inTurn, `${first} at once, the next when the time limit is over; `)],
    ['  all nurses of a desk asked at once', ...clockOf(clocks.atOnce)],
    [
      '  texts more of a baby then',
      shown(needs.contactsPerBaby * needs.urgentShare * textsOfOneMore * Math.max(0, divided.nursesEach - atOnce)),
      'alerts of a baby x nurses more of a desk x 2: the alert, and who took it; not counted above',
    ],
  ];
  const alone: Row = [
    '  desks whose first nurse is enough',
    count(firstIsEnough.desks),
    `at most ${shown(firstIsEnough.erlangs)} alerts at a desk in ${shown(busyMinutes)} min: then she alone takes as many in time`,
  ];
  if (divided.desks === 1) return [...rows('one desk', pooled, clocks.pooled), ...turn, alone];
  return [...rows('one desk', pooled, clocks.pooled), ...rows(`${count(divided.desks)} desks`, divided, clocks.divided), ...turn, alone];
}

function clockOf(observed: Observed | null, how = ''): [value: string, how: string] {
  if (observed === null) return ['not run', 'a desk so full settles more slowly than the clock runs, or it has no alerts'];
  const { within } = observed;
  return [`${percent(within.share)} +-${percent(within.standardError)}`, `${how}${count(observed.count)} alerts; +- one standard error`];
}

const sharesIn = (shares: ReadonlyMap<string, number>): string =>
  [...shares].map(([name, share]) => `${name} ${percent(share)}`).join(', ');
