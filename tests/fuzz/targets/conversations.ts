// Whole conversations, as written and made wrong, by SMS and USSD: every message gets words that fit their channel, in each turn, from
// the dialog alone (with babies that are followed) and from the whole application over stores in memory that fail now and then.
// One message counts as one input. Accepted: the dialog went on, and did not ask the same again.

import { buildApplication } from '../../../src/cli/application.ts';
import type { Register } from '../../../src/conversation/ports.ts';
import { readSession } from '../../../src/conversation/stored-session.ts';
import { newSession, type Session } from '../../../src/dialog/session.ts';
import { fitsScreen } from '../../../src/messages/screens.ts';
import { dialOf, morning, turnOf } from '../../properties/any-dialog.ts';
import { shownDigits } from '../../properties/any-message.ts';
import type { Chance } from '../../simulation/chance.ts';
import { demoRoster, inForce } from '../../support/desk.ts';
import { memorySessions } from '../../support/memory-stores.ts';
import { segmentsOver } from '../../support/reply-limits.ts';
import { aReport, conversations, marks, messages } from '../good-messages.ts';
import { mutate } from '../mutate.ts';
import { noise } from '../noise.ts';
import { type Input, type Outcome, type Target, type Timed, usualLimitMilliseconds } from '../target.ts';

const workers = ['+254700555101', '+254700555102', '+254700555103', '+254700555104'];
const screen = { gsm7: 182, ucs2: 70 };
/** Stands for the digit at this place among those that the last reply showed. */
const shown = /^shown (\d)$/;
const labels = ['T', 'R', 'P', 'BW', 'SPO2', 'C', 'HEAD', 'SKIN', 'CORD', 'EYES', 'FED', 'GRUNT'];

function drawMessages(chance: Chance): string[] {
  const written = chance.pick(conversations);
  return Array.from({ length: chance.whole(2, 24) }, (_, at) => {
    const kind = chance.next();
    if (kind < 0.45) return written[at] ?? chance.pick(messages);
    if (kind < 0.65) return `shown ${chance.whole(0, 9)}`;
    if (kind < 0.8) return mutate(written[at] ?? chance.pick(messages), chance, messages);
    if (kind < 0.88) return noise(chance);
    return chance.is(0.5) ? marks(chance) : aReport(chance, labels);
  });
}

function sent(text: string, digits: readonly string[]): string {
  const [, at] = shown.exec(text) ?? [];
  return at === undefined ? text : (digits[Number(at) % Math.max(digits.length, 1)] ?? '0');
}

/** The dialog without words or stores. */
function takeTurns(texts: Input, timed: Timed): Outcome {
  let session: Session = newSession;
  let answered = 0;
  let digits: readonly string[] = [];
  for (const [at, text] of texts.entries()) {
    const now = morning + at * 40_000;
    const turn = timed(() => (text === 'dial' ? dialOf(session, now) : turnOf(session, sent(text, digits), now)));
    const { reply } = turn;
    if (reply.told.length === 0 && reply.question === undefined && reply.result === undefined) throw new Error('It has nothing to say.');
    if (turn.session.open?.answers.length !== session.open?.answers.length) answered += 1;
    ({ session } = turn);
    digits = reply.question?.options.map(({ digit }) => digit) ?? [];
  }
  return answered > 0 ? 'accepted' : 'refused';
}

/** A register that holds nobody; the one at `failsAt` of its calls fails. */
function emptyRegister(failsAt: number): Register {
  let calls = 0;
  const answer = async <T>(value: T): Promise<T> => {
    calls += 1;
    if (calls === failsAt) throw new Error('The register is away.');
    return value;
  };
  return {
    record: () => answer(undefined),
    findAlerts: () => answer([]),
    alertOf: () => answer(null),
    moveAlert: () => answer(null),
    findBabies: () => answer([]),
    listBabies: () => answer([]),
    findReferrals: () => answer([]),
    workDue: () => answer(0),
    claimTexts: () => answer([]),
    beginSending: () => answer(false),
    settleText: () => answer(undefined),
    reportText: () => answer(undefined),
    textSentAs: () => answer(null),
    tellOfLost: () => answer(0),
    begunDue: () => answer([]),
    settleBegun: () => answer(undefined),
    end: async () => {},
  };
}

/** Takes  head: channel, worker and the call of the register that fails. */
async function takeWhole([head = '', ...texts]: Input, timed: Timed): Promise<Outcome> {
  const [channel = 'sms', worker = workers[0]!, failsAt = '0'] = head.split(' ');
  const sessions = memorySessions();
  let now = morning;
  const { receive } = buildApplication({
    stores: { sessions, register: emptyRegister(Number(failsAt)) },
    roster: demoRoster,
    published: inForce,
    send: async () => ({ kind: 'sent', gatewayId: 'invented' }),
    screen,
    now: () => now,
    log: { info: () => {}, warn: () => {}, error: () => {} },
  });
  let [last, keyed, call] = ['', '', 0];
  for (const [at, one] of texts.entries()) {
    now += 40_000;
    const text = sent(one, shownDigits(last));
    if (channel === 'ussd') keyed = keyed === '' ? text : `${keyed}*${text}`;
    const incoming =
      channel === 'ussd'
        ? { channel: 'ussd' as const, from: worker, id: `${call}:${at}`, text: keyed, dial: `call-${call}` }
        : { channel: 'sms' as const, from: worker, id: `sms-${at}`, text };
    const outgoing = await timed(() => receive(incoming));
    if (outgoing.text.trim() === '') throw new Error('The answer is empty.');
    if (channel === 'ussd' && !fitsScreen(outgoing.text, screen)) throw new Error(`The answer has no room on a screen: ${outgoing.text}`);
    if (channel === 'sms' && segmentsOver(outgoing.text, at === 0 || demoRoster.find(worker)?.mayInject === true) > 0)
      throw new Error(`The answer has too many segments: ${outgoing.text}`);
    last = outgoing.text;
    if (outgoing.ends) [keyed, call] = ['', call + 1];
  }
  const opened = await sessions.open(worker, 'the end', now);
  const session = opened.kind === 'held' ? readSession(opened.held.session) : null;
  if (session === null || session.damaged) throw new Error('The session that was left cannot be read.');
  return (session.session.open?.answers.length ?? 0) > 0 ? 'accepted' : 'refused';
}

export const wholeConversations: readonly Target[] = [
  {
    name: 'turns/dialog',
    share: 70,
    limitMilliseconds: usualLimitMilliseconds,
    isList: true,
    draw: (chance) => drawMessages(chance).map((text) => (chance.is(0.03) ? 'dial' : text)),
    take: takeTurns,
    count: (texts) => texts.length,
  },
  {
    name: 'turns/application',
    share: 45,
    limitMilliseconds: usualLimitMilliseconds,
    isList: true,
    draw: (chance) => [`${chance.pick(['sms', 'ussd'])} ${chance.pick(workers)} ${chance.whole(0, 200)}`, ...drawMessages(chance)],
    take: takeWhole,
    count: (texts) => texts.length - 1,
  },
];
