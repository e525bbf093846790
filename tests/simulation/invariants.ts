// What must hold, each as a question that names what breaks it: after every change of the register, at every hour, and at the end,
// when the storm is over and all has had time to come right. Next: district-days.ts.

import { DateTime } from 'luxon';
import { measure } from '../../src/messages/segments.ts';
import { published } from '../support/desk.ts';
import type { TestRegister } from '../support/test-register.ts';
import { stepsLooked } from './babies.ts';
import { zone } from './district.ts';
import { MINUTE } from './times.ts';
import type { Deed } from './workers.ts';
import type { World } from './world.ts';

const hasAlert = 'an urgent examination has an alert';
/** Claim -> the rows that break it. */
const always: Readonly<Record<string, string>> = {
  'an alert has one taker at a time': `select h.alert from alert_history h join alert_history before on before.alert = h.alert and before.move = h.move - 1
     where h.state_to = 'taken' and before.state_to = 'taken' and h.by <> before.by`,
  'an alert that nobody has rings somebody yet': `select key from alerts where state = 'open' and not exists
     (select from due_work w where w.alert = alerts.key and w.work = 'alert-not-taken' and w.state = 'pending')`,
  'an open urgent referral is followed, or somebody was told': `select key from referrals r where state <> 'closed' and urgency = 'urgent' and not exists
     (select from due_work w where w.referral = r.key and w.state in ('pending', 'missed'))`,
  [hasAlert]: `select key from examinations e where urgency = 'urgent' and not exists (select from alerts a where a.baby = e.baby)`,
  'an alert has the text that told of it': `select a.key from alerts a where not exists (select from texts_out t where t.key = 'nurse:' || a.key || ':0')`,
  'a baby who is not followed has nothing due': `select b.id from babies b join due_work w on w.baby = b.id
     where b.status <> 'followed' and w.state = 'pending' and w.work in ('recheck', 'contact')`,
};
const alwaysAtOnce = Object.entries(always)
  .map(([claim, rows]) => `(select '${claim}' as claim, key from (${rows} limit 1) as broken (key))`)
  .join(' union all ');

/** Claims that do not hold in the register as it stands; none when all is well. */
export async function brokenNow(world: World, register: TestRegister): Promise<string[]> {
  const broken = (await register.rows(alwaysAtOnce)).map(({ claim, key }) => `${claim}: ${key}`);
  if (broken.length === 0) return broken;
  // An alert that the register could not take is on its way: the examination may end before it is written, and the nurse knows.
  const kept = (await world.kept()).flatMap((one) => (one.kind === 'alert' ? [`${hasAlert}: examination:${one.baby}:`] : []));
  return broken.filter((one) => !kept.some((excused) => one.startsWith(excused)));
}

/** Minutes by which a clock may be off at most. */
const clocksOff = 4;

/** How far what reached phones was looked at. */
export interface Seen {
  readonly texts: number;
  readonly replies: number;
  readonly takers: number;
}
export const nothingSeen: Seen = { texts: 0, replies: 0, takers: 0 };

/** Claims about what reached phones since the last look. */
export async function brokenOnPhones(world: World, register: TestRegister, seen: Seen): Promise<string[]> {
  const { carrier, claims, tookAlert } = world;
  const { quiet } = published().followUp;
  const found = [...claims];
  const urgent = new Set((await register.rows('select key from texts_out where urgent')).map(({ key }) => key));
  for (const entry of await world.kept()) if (entry.kind === 'text' && entry.urgent) urgent.add(entry.key);
  const times = new Map<string, number>();
  for (const { key } of carrier.handedOver) times.set(key, (times.get(key) ?? 0) + 1);
  for (const [key, count] of times) {
    if (count > 1 + (carrier.failures.get(key) ?? 0) && !urgent.has(key))
      found.push(`a text goes out once, and again only when it failed: ${key}, ${count} times`);
  }
  for (const { key, at } of carrier.handedOver.slice(seen.texts)) {
    if (!/^text:due:.*:contact:/.test(key)) continue;
    const local = DateTime.fromMillis(at, { zone });
    const minute = local.hour * 60 + local.minute;
    // A process whose clock is off keeps the hours that it shows.
    if (minute >= quiet.fromMinute + clocksOff || minute < quiet.toMinute - clocksOff)
      found.push(`a reminder waits for the end of quiet hours: ${key} at ${local.toISO()}`);
  }
  for (const { text } of carrier.replies.slice(seen.replies)) {
    if (measure(text).segments > 3) found.push(`a reply keeps within its segments: ${text}`);
    if (text === '') found.push('a text is answered');
  }
  for (const { nurse, code } of tookAlert.slice(seen.takers)) {
    const taken = await register.rows(
      `select from alert_history h join alerts a on a.key = h.alert where h.state_to = 'taken' and h.by = $1 and a.code = $2 limit 1`,
      [nurse, code],
    );
    if (taken.length === 0) found.push(`who is told that an alert is hers has it: ${nurse}, ${code}`);
  }
  return found;
}

export function seenOf({ carrier, tookAlert }: World): Seen {
  return { texts: carrier.handedOver.length, replies: carrier.replies.length, takers: tookAlert.length };
}

/** Longer than the longest pause between two tries of anything urgent. */
const overdue = 45 * MINUTE;

/** Claims about the end: what was kept is written, what was due is done, and the books are balanced. */
export async function brokenAtTheEnd(world: World, register: TestRegister, deeds: readonly Deed[]): Promise<string[]> {
  const found: string[] = [];
  const { length: kept } = await world.kept();
  if (kept > 0) found.push(`what was kept for the register is written once it is back: ${kept} entries`);
  const late = world.scheduler.now() - overdue;
  for (const { key } of await register.rows(
    `select key from due_work where state = 'pending' and due_at < $1 union all select key from texts_out where state = 'due' and due_at < $1`,
    [late],
  ))
    found.push(`what is due is done: ${key}`);
  const examinations = new Map<string, Examination>();
  for (const { baby, body } of await register.rows('select baby, body from examinations')) {
    const { examination } = body as { readonly examination: Examination };
    if (examination.flow === 'first-day-exam') examinations.set(String(baby), examination);
  }
  const rowsOf = new Map(
    (await register.rows('select baby, count(*)::integer as rows from examinations group by baby')).map(({ baby, rows }) => [baby, rows]),
  );
  for (const deed of deeds) {
    const babies = deed.begunBy.map((id) => `${deed.worker}-${id}`).filter((baby) => examinations.has(baby));
    const rows = babies.reduce((sum, baby) => sum + Number(rowsOf.get(baby)), 0);
    if (deed.outcome === 'finished' && rows === 0)
      found.push(`an examination that ended is in the register: ${deed.worker}, ${deed.begunBy}`);
    if (babies.length > 1) found.push(`an examination is there once: ${babies}`);
    for (const baby of babies) found.push(...misread(baby, examinations.get(baby), deed));
  }
  return found;
}

interface Answer {
  readonly step: string;
  readonly marks?: readonly unknown[];
  readonly values?: Readonly<Record<string, unknown>>;
}
interface Examination {
  readonly flow: string;
  readonly answers: readonly Answer[];
}

/** What the register holds of a baby that is not what its worker saw. */
function misread(id: string, examination: Examination | undefined, { baby, outcome }: Deed): string[] {
  const found: string[] = [];
  const claim = (what: string): void => void found.push(`what is recorded is what was seen: ${id}, ${what}`);
  const values: Record<string, unknown> = Object.assign({}, ...(examination?.answers ?? []).map((answer) => answer.values ?? {}));
  const numbers = { temperature: baby.temperature, 'respiratory-rate': baby.breaths, 'heart-rate': baby.heart, 'birth-weight': baby.grams };
  for (const [name, number] of Object.entries(numbers)) {
    if (values[name] !== undefined && values[name] !== number) claim(`${name} ${values[name]} for ${number}`);
  }
  for (const { step, marks } of examination?.answers ?? []) {
    if (!stepsLooked.has(step) || marks === undefined) continue;
    const isSeen = baby.signs.some((sign) => sign.step === step);
    if (marks.length > 0 && !isSeen) claim(`a sign at ${step} that nobody saw`);
    if (marks.length === 0 && isSeen && outcome === 'finished') claim(`the sign at ${step} is left out`);
  }
  return found;
}
