// Workers: they examine babies, answer reminders and questions about referrals, some late, some never. All shares are invented.
// Next: nurses.ts.

import { answerTo, type Baby, bornBy, opening, stepAsked } from './babies.ts';
import { MINUTE, SECOND } from './times.ts';
import { codeIn, type World } from './world.ts';

/** One examination as the worker did it, to be compared with what the register says. */
export interface Deed {
  readonly worker: string;
  readonly baby: Baby;
  /** The messages that may have begun it. */
  readonly begunBy: string[];
  outcome: 'going on' | 'finished' | 'given up';
}

const shares = { givesUp: 0.003, followsReminder: 0.85, tells: 0.85, refused: 0.08, died: 0.01 };
const longest = 90;
/** So soon after a worker was told to refer, an alert of the baby has reached a nurse's phone, whatever the weather. */
const alertWithin = 15 * MINUTE;

/** The last page asked for: the code of the baby and what it is, or where to send it now. */
const isResult = (reply: string): boolean =>
  /\b[2-9][A-Z]{2} (?:girl|boy|baby) \d/i.test(reply) || (/REFER NOW/.test(reply) && !/2 finish the check/.test(reply));

/** A worker does one thing after another. */
function inTurn(world: World, phone: string, what: () => Promise<void>): void {
  const before = inHand.get(world)?.get(phone) ?? Promise.resolve();
  const own = inHand.get(world) ?? new Map<string, Promise<void>>();
  inHand.set(
    world,
    own.set(
      phone,
      before.then(what).catch((error: unknown) => void world.claims.push(`the simulation itself works: ${String(error)}`)),
    ),
  );
}
const inHand = new WeakMap<World, Map<string, Promise<void>>>();

/** A birth: the worker texts of the baby some time later. */
export function examine(world: World, worker: string, deeds: Deed[]): void {
  inTurn(world, worker, async () => {
    const deed: Deed = { worker, baby: bornBy(world.chance, world.prevalence), begunBy: [], outcome: 'going on' };
    deeds.push(deed);
    await converse(world, worker, opening(deed.baby), deed);
  });
}

/** Answers what is asked, one text after another, until a result or until she gives up. */
async function converse(world: World, phone: string, first: string, deed: Deed | null): Promise<void> {
  const { chance, scheduler } = world;
  const baby = deed?.baby ?? bornBy(chance, world.prevalence);
  let words = first;
  let isDangerTold = false;
  let dangerSince = scheduler.now();
  for (let turns = 0; turns < longest; turns += 1) {
    const reply = await world.text(phone, words, (ids) => (words === first ? deed?.begunBy.push(...ids) : undefined));
    if (reply === null || /^Still answering/.test(reply)) {
      // She asks for the question again rather than answer one that she cannot see.
      if (turns > 0 && words !== first) words = 'GO ON';
      await scheduler.pause(chance.whole(20, 60) * SECOND);
      continue;
    }
    if (isDangerTold && !/REFER NOW/.test(reply) && stepAsked(reply) !== 'danger')
      world.claims.push(`who tells of a danger is told to refer: ${phone} read ${reply}`);
    if (/REFER NOW/.test(reply) && isDangerTold) watchForAlert(world, phone, deed, dangerSince);
    isDangerTold = false;
    // Nothing was looked up or recorded: she sends the same again.
    if (/NOT RECORDED|Send this again later/.test(reply)) {
      await scheduler.pause(chance.whole(20, 60) * SECOND);
      continue;
    }
    if (isResult(reply)) {
      if (deed !== null) deed.outcome = 'finished';
      return;
    }
    if (chance.is(shares.givesUp)) break;
    await scheduler.pause(chance.whole(10, 40) * SECOND);
    words = /\b1 New baby\b/.test(reply) ? first : answerTo(reply, baby, chance);
    isDangerTold = deed !== null && stepAsked(reply) === 'danger' && words !== '0';
    if (isDangerTold) dangerSince = scheduler.now();
  }
  if (deed !== null) deed.outcome = 'given up';
}

/** Takes  from: when she sent the danger. She may read the reply minutes later, and the nurse has long been told by then. */
function watchForAlert({ scheduler, carrier, claims }: World, phone: string, deed: Deed | null, from: number): void {
  scheduler.after(alertWithin, () => {
    const ids = (deed?.begunBy ?? []).map((id) => `${phone}-${id}`);
    const isTold = carrier.delivered.some(({ at, key }) => at >= from && key.startsWith('nurse:') && ids.some((id) => key.includes(id)));
    if (!isTold) claims.push(`a nurse is told of a baby in danger within minutes: ${ids[0]}`);
  });
}

/** What a worker does with a text from the application. */
export function listenAsWorker(world: World, phone: string): void {
  const { chance, scheduler } = world;
  world.answers(phone, (text) => {
    const code = codeIn(text);
    if (code === null) return;
    if (/to begin\./.test(text)) {
      if (chance.is(shares.followsReminder))
        scheduler.after(chance.whole(1, 50) * MINUTE, () => inTurn(world, phone, () => converse(world, phone, code, null)));
    } else if (/left for|arrived at|how is the baby/.test(text) && /Reply like/.test(text)) {
      if (chance.is(shares.tells)) scheduler.after(chance.whole(1, 25) * MINUTE, () => void tell(world, phone, code, text));
    }
  });
}

/** Answers with one of the digits that the question shows. */
export async function tell(world: World, phone: string, code: string, question: string): Promise<void> {
  const { chance } = world;
  const shown = [...question.matchAll(/\b(\d) (left|not yet|family refuses|died|arrived|not there|home and well|still in care)/g)];
  const wanted = chance.is(shares.died) ? 'died' : chance.is(shares.refused) ? 'family refuses' : null;
  const digit = shown.find(([, , meaning]) => meaning === wanted)?.[1] ?? (chance.is(0.75) ? shown[0]?.[1] : shown[1]?.[1]);
  if (digit === undefined) return;
  const reply = await world.text(phone, `${code} ${digit}`);
  if (reply !== null && /why does the family refuse/.test(reply)) await world.text(phone, '2');
  else if (reply !== null && /died\?/.test(reply)) await world.text(phone, '1');
}
