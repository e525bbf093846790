// Workers: they examine babies, answer reminders and questions about referrals, some late, some never. All shares are invented.
// Next: nurses.ts.

import { codeIn, HOUR, MINUTE, SECOND, type World } from './world.ts';

/** What the workers themselves did, to be compared with what the register says. */
export interface Deeds {
  begun: number;
  /** Ended with a result on the phone. */
  finished: number;
  givenUp: number;
}

const shares = { danger: 0.06, cool: 0.05, sign: 0.02, givesUp: 0.03, followsReminder: 0.85, tells: 0.85, refused: 0.08, died: 0.01 };
const longest = 60;
/** A result begins with the code of the baby and what it is. */
const isResult = (reply: string): boolean =>
  /^[2-9][A-Z]{2} (GIRL|BOY|BABY)/i.test(reply) || /^REFER NOW, .*(0|1) more(?! advice)$/i.test(reply);

/** A birth: the worker texts of the baby some hours later. */
export function examine(world: World, phone: string, deeds: Deeds): void {
  const { chance } = world;
  world.later(chance.whole(1, 20) * HOUR, async () => {
    deeds.begun += 1;
    const hours = chance.whole(1, 6);
    const opening = `BABY ${chance.is(0.5) ? 'GIRL' : 'BOY'} ${hours}H ${chance.whole(36, 41)}W ${chance.whole(23, 42)}00G`;
    await converse(world, phone, opening, deeds);
  });
}

/** Answers what is asked, one text after another, until a result or until she gives up. */
async function converse(world: World, phone: string, first: string, deeds: Deeds | null): Promise<void> {
  const { chance } = world;
  const isIll = chance.is(shares.danger);
  let turns = 0;
  const go = async (words: string): Promise<void> => {
    const reply = await world.text(phone, words);
    turns += 1;
    if (isResult(reply)) {
      if (deeds !== null) deeds.finished += 1;
      return;
    }
    if (turns > longest || chance.is(shares.givesUp / 10)) {
      if (deeds !== null) deeds.givenUp += 1;
      return;
    }
    world.later(chance.whole(10, 40) * SECOND, () => go(answerTo(reply, isIll, world)));
  };
  await go(first);
}

function answerTo(question: string, isIll: boolean, { chance }: World): string {
  if (/2 finish the check/.test(question)) return '2';
  if (/DANGER NOW\?/.test(question)) return isIll ? chance.pick(['1', '5', '8']) : '0';
  if (/T36\.8|36\.8/.test(question)) return `${chance.is(shares.cool) ? '36.2' : '36.8'} ${chance.whole(40, 56)} ${chance.whole(110, 150)}`;
  if (/count/i.test(question) && !/ 0 /.test(question)) return String(chance.whole(40, 56));
  if (/ 0 /.test(question)) return chance.is(shares.sign) ? '1' : '0';
  return chance.pick(['-', '1', '0', '3100']);
}

/** What a worker does with a text from the application. */
export function listenAsWorker(world: World, phone: string): void {
  const { chance } = world;
  world.answers(phone, (text) => {
    const code = codeIn(text);
    if (code === null) return;
    if (/to begin\./.test(text)) {
      if (chance.is(shares.followsReminder)) world.later(chance.whole(1, 50) * MINUTE, () => converse(world, phone, code, null));
    } else if (/left for|arrived at|how is the baby/.test(text) && /Reply like/.test(text)) {
      if (chance.is(shares.tells)) world.later(chance.whole(1, 25) * MINUTE, () => tell(world, phone, code, text));
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
  if (/why does the family refuse/.test(reply)) await world.text(phone, '2');
  else if (/died\?/.test(reply)) await world.text(phone, '1');
}
