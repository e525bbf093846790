// What a nurse or a coordinator texts about an alert: its code alone takes it, with words advises the worker, with NO passes it
// on, with DONE closes it. The worker is told at each step. Refusal is a value: an unknown code, an alert that another has, one
// of a facility that is not hers. Answers about a referral go to referral-reply.ts. Next: which-alert.ts, pass-alert.ts, relay.ts.

import { codeIn } from '../../dialog/code-in.ts';
import { normalise } from '../../dialog/readings/tokens.ts';
import { say } from '../../dialog/reply.ts';
import type { SayableValue } from '../../messages/catalogue.ts';
import { type FollowUpParts, recipient, textTo } from '../follow-up-parts.ts';
import { within } from '../patience.ts';
import type { Person, Register } from '../ports.ts';
import type { AlertRecord, Entry } from '../records.ts';
import { answerReferral, askAwaiting } from '../referrals/referral-reply.ts';
import { readReferralAnswer } from '../referrals/referral-words.ts';
import { facilityOf, toWorker } from './alert-asks.ts';
import { keyTo, nameOf } from './alert-chain.ts';
import { passOn } from './pass-alert.ts';
import { alertMeant } from './which-alert.ts';

export interface NurseParts extends FollowUpParts {
  readonly register: Pick<Register, 'findAlerts' | 'alertOf' | 'moveAlert' | 'findReferrals' | 'record'>;
  /** True: the text is a word of the language, or of the base language, for it. */
  readonly says: (language: string, what: 'done' | 'pass', text: string) => boolean;
  readonly pause: (milliseconds: number) => Promise<void>;
  readonly log: { readonly error: (about: object, what: string) => void };
}

/** Within a gateway's patience, and within the phone's lock. */
const patienceMilliseconds = 3_000;

interface Asker {
  readonly person: Person;
  readonly code: string;
  readonly messageId: string;
  readonly now: number;
  readonly speak: (key: string, values?: Readonly<Record<string, SayableValue>>) => string;
}

/** The code of a baby and the words after it, as they were typed; null: the text begins with no code. */
export function alertCodeIn(text: string): { readonly code: string; readonly words: string } | null {
  const coded = codeIn(text);
  if (coded === null) return null;
  const words = coded.rest === '' ? '' : text.trim().replace(/^.{3}[\s:,.!-]*/su, '');
  return { code: coded.code, words: words.trim() };
}

/**
 * The answer to her; null when the text speaks of no alert. Of one who examines babies too, a code that no alert of hers has is
 * left to the dialog: it may be a baby that she follows, and `5HR` the age of one.
 */
export async function answerNurse(person: Person, text: string, messageId: string, now: number, parts: NurseParts): Promise<string | null> {
  const said = alertCodeIn(text);
  if (said === null) return null;
  const speak: Asker['speak'] = (key, values = {}) => parts.speak(person.language, key, { code: said.code, ...values });
  const asker: Asker = { person, code: said.code, messageId, now, speak };
  const answered = await within(patienceMilliseconds, answerCode(asker, said.words, parts), parts.pause);
  if (answered.kind === 'had') return answered.value;
  parts.log.error({ fault: answered.fault }, 'the register is away; a nurse was told to ring the worker');
  return person.roles.includes('worker') ? null : speak('alert.away');
}

async function answerCode(asker: Asker, words: string, parts: NurseParts): Promise<string | null> {
  const { person, code, speak } = asker;
  const about = (said: string): Promise<string | null> => answerReferral(person, code, said, asker.messageId, asker.now, parts);
  const isAnswer = readReferralAnswer(words.replace(/^\d{3}\b[\s:,.-]*/, ''), person.language, parts) !== null;
  const answered = isAnswer ? await about(words) : null;
  if (answered !== null) return answered;
  const alerts = (await parts.register.findAlerts(code)).filter(
    (alert) => alert.worker !== person.phone || alert.asked.includes(person.phone),
  );
  const meant = alertMeant(person, words, alerts, parts.roster);
  if (meant.kind === 'one') return answerAbout(meant.alert, meant.words, asker, parts);
  if (meant.kind === 'several') return speak('referral.which', { choices: meant.alerts.map((alert) => choice(alert, parts)) });
  // Other words were for a worker: she is not asked a question in their place, but told that they went nowhere.
  const isCodeAlone = /^(\d{3})?\W*$/.test(words);
  const referral = isAnswer || !isCodeAlone ? null : await about(words);
  if (referral !== null || person.roles.includes('worker')) return referral;
  if (alerts.length > 0) return speak('alert.not-yours');
  return speak(isCodeAlone ? 'alert.unknown' : 'alert.unknown-lost');
}

function choice({ code, worker, facility }: AlertRecord, { roster }: NurseParts) {
  return say('referral.choice', { code, digits: worker.slice(-3), facility: facilityOf(facility, roster).name });
}

async function answerAbout(alert: AlertRecord, words: string, asker: Asker, parts: NurseParts): Promise<string> {
  const { person, speak } = asker;
  if (alert.state === 'taken' && alert.takenBy !== person.phone) {
    const asked = words === '' ? await askAwaiting(person, asker.code, asker.now, parts) : null;
    return asked ?? alreadyHas(alert.takenBy, asker, parts);
  }
  const said = normalise(words).replace(/(?<![.,!])[.,!]+$/, '');
  if (parts.says(person.language, 'done', said)) return close(alert, asker, parts);
  if (parts.says(person.language, 'pass', said)) return pass(alert, asker, parts);
  // A digit answers a question, and none is asked: passed on as advice it would only puzzle the worker.
  if (/^\d$/.test(said)) return speak('alert.digit');
  const values = { nurse: person.name, text: words };
  // Texts of one instant go out in the order of their keys: the worker reads who has the alert (`taken:`) before her words.
  const advice = words === '' ? [] : [toWorker(alert, `words:${asker.messageId}`, 'alert.advice-worker', values, asker.now, parts)];
  if (alert.state === 'taken') await parts.register.record(advice);
  else if (!(await take(alert, advice, asker, parts))) return whoHasIt(alert, asker, parts);
  return words === '' ? speak('alert.taken', { worker: alert.worker }) : speak('alert.advice-sent');
}

/** False: somebody else moved it first. */
async function take(alert: AlertRecord, advice: readonly Entry[], asker: Asker, parts: NurseParts): Promise<boolean> {
  const { person, now } = asker;
  const key = `taken:${alert.key}:${alert.asked.length - 1}:${person.phone}`;
  const values = { nurse: person.name, phone: person.phone };
  const worker = toWorker(alert, key, 'alert.taken-worker', values, now, parts);
  const told: Entry[] = [worker, ...advice, ...toOthersAsked(alert, key, asker, parts)];
  return (await parts.register.moveAlert(alert.key, 'open', 'taken', person.phone, now, told)) !== null;
}

/** Those who are asked now and were not the first to answer: there is nothing more for them to do. */
function toOthersAsked(alert: AlertRecord, key: string, { person, now }: Asker, parts: NurseParts): Entry[] {
  const values = { code: alert.code, nurse: person.name, phone: person.phone };
  const others = alert.askedNow.filter((phone) => phone !== person.phone);
  return others.map((phone) => {
    const about = { key: keyTo(phone, alert.nurse, `${key}:asked`), at: now, urgent: true, baby: alert.baby };
    return textTo(recipient(phone, parts), about, 'alert.taken-asked', values, parts);
  });
}

async function close(alert: AlertRecord, asker: Asker, parts: NurseParts): Promise<string> {
  const { person, now, speak } = asker;
  const key = `closed:${alert.key}`;
  const worker = toWorker(alert, key, 'alert.closed-worker', { nurse: person.name }, now, parts);
  const told = alert.state === 'open' ? [worker, ...toOthersAsked(alert, key, asker, parts)] : [worker];
  const moved = await parts.register.moveAlert(alert.key, alert.state, 'closed', person.phone, now, told);
  return moved === null ? whoHasIt(alert, asker, parts) : speak('alert.closed');
}

async function pass(alert: AlertRecord, asker: Asker, parts: NurseParts): Promise<string> {
  const { person, now, speak } = asker;
  const passed = passOn(alert, person.phone, now, parts);
  if (passed.kind === 'asked-already') return speak('alert.passed', { nurse: nameOf(passed.who, parts.roster) });
  const moved = await parts.register.moveAlert(alert.key, alert.state, 'open', person.phone, now, passed.entries);
  if (moved === null) return whoHasIt(alert, asker, parts);
  return passed.kind === 'passed'
    ? speak('alert.passed', { nurse: nameOf(passed.to, parts.roster) })
    : speak('alert.nobody-else', { worker: alert.worker });
}

/** After losing a race: who has the alert now, or that nobody has one with this code any more. */
async function whoHasIt(alert: AlertRecord, asker: Asker, parts: NurseParts): Promise<string> {
  const now = (await parts.register.findAlerts(alert.code)).find((one) => one.key === alert.key);
  return now === undefined ? asker.speak('alert.unknown') : alreadyHas(now.takenBy ?? now.nurse, asker, parts);
}

function alreadyHas(who: string | null, { speak }: Asker, { roster }: NurseParts): string {
  return speak('alert.already', { nurse: nameOf(who, roster), phone: who ?? '' });
}
