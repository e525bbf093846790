// What must hold at every hour of a simulated week, each as a question that names what breaks it. Next: week.ts.

import { DateTime } from 'luxon';
import { measure } from '../../src/messages/segments.ts';
import { published } from '../support/desk.ts';
import type { TestRegister } from '../support/test-register.ts';
import { zone } from './district.ts';
import type { World } from './world.ts';

/** How far what reached phones was looked at. */
export interface Seen {
  readonly texts: number;
  readonly replies: number;
}

/** Claims that do not hold; none when all is well. Texts and replies are looked at from where the last look ended. */
export async function broken(world: World, register: TestRegister, seen: Seen): Promise<string[]> {
  const { quiet } = (await published()).followUp;
  const claims: string[] = [];
  const ask = async (claim: string, sql: string, values: readonly unknown[] = []): Promise<void> => {
    const rows = await register.rows(sql, values);
    if (rows.length > 0) claims.push(`${claim}: ${JSON.stringify(rows[0])}`);
  };
  await ask(
    'an alert has one taker at a time',
    `select alert, at, count(*) from alert_history where state_from = 'open' and state_to = 'taken' group by alert, at having count(*) > 1`,
  );
  await ask(
    'an alert that nobody has rings somebody yet',
    `select key from alerts where state = 'open' and not exists
       (select 1 from due_work w where w.alert = alerts.key and w.work = 'alert-not-taken' and w.state = 'pending')`,
  );
  await ask(
    'an open urgent referral is followed, or somebody was told',
    `select key from referrals r where state <> 'closed' and urgency = 'urgent' and not exists
       (select 1 from due_work w where w.referral = r.key and w.state in ('pending', 'missed'))`,
  );
  await ask(
    'an urgent examination has an alert',
    `select e.key from examinations e where urgency = 'urgent' and not exists (select 1 from alerts a where a.baby = e.baby)`,
  );
  await ask(
    'an alert has the text that told of it',
    `select a.key from alerts a where not exists (select 1 from texts_out t where t.key = 'nurse:' || a.key || ':0')`,
  );
  await ask(
    'a baby who is not followed has nothing due',
    `select b.id from babies b join due_work w on w.baby = b.id where b.status <> 'followed' and w.state = 'pending' and w.work in ('recheck', 'contact')`,
  );
  const urgentTexts = new Set((await register.rows('select key from texts_out where urgent')).map(({ key }) => key));
  const times = new Map<string, number>();
  for (const { key } of world.handedOver) times.set(key, (times.get(key) ?? 0) + 1);
  const failedOnce = new Set((await register.rows('select key from texts_out where attempts > 1')).map(({ key }) => key));
  for (const [key, count] of times) {
    if (count > 1 && !urgentTexts.has(key) && !failedOnce.has(key)) claims.push(`a text goes out once for its key: ${key}, ${count} times`);
  }
  for (const { key, at } of world.handedOver.slice(seen.texts)) {
    if (!/^text:due:.*:contact:/.test(key)) continue;
    const local = DateTime.fromMillis(at, { zone });
    const minute = local.hour * 60 + local.minute;
    const isQuiet = minute >= quiet.fromMinute || minute < quiet.toMinute;
    if (isQuiet) claims.push(`a reminder waits for the end of quiet hours: ${key} at ${local.toISO()}`);
  }
  for (const { text } of world.replies.slice(seen.replies)) {
    if (measure(text).segments > 3) claims.push(`a reply keeps within its segments: ${text}`);
    if (text === '') claims.push('a text is answered');
  }
  for (const fault of world.faults) claims.push(`nothing is logged as a fault: ${fault}`);
  return [...new Set(claims)];
}
