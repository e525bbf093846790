// Plays a written conversation on a phone and says where what came back differs from what was written.
// `{code}` in a line stands for the code that the last text to somebody other than the worker began with, `{baby}` for the one
// that the worker was last shown at the beginning of a reply or a text.

import { measure } from '../messages/segments.ts';
import type { Script, ScriptAct, ScriptLook, ScriptTurn } from './script.ts';

/** A phone as a script plays it: what it does, and what other phones got meanwhile. */
export interface PlayedPhone {
  readonly channel: () => 'sms' | 'ussd';
  switchTo(channel: 'sms' | 'ussd'): void;
  /** Sends an SMS, or keys into the running call; dials first when no call is running. */
  send(text: string): Promise<string>;
  /** Hangs up and dials anew; on SMS, null. */
  dialAgain(): Promise<string | null>;
  /** Further pages of the last screen, up to its end. */
  furtherPages(): Promise<string>;
  /** A text from another phone. */
  sendFrom(who: Other, text: string): Promise<string>;
  /** Texts that reached this phone since the last call. */
  takeTexts(who: Other | 'worker'): Promise<string[]>;
  wait(duration: string): void;
}

/** The nurse whose number is rung for the worker's facility, or anybody by number. */
export type Other = 'nurse' | `+${string}`;

export interface Disagreement {
  readonly turn: number;
  readonly sent: string;
  readonly wanted: string;
  readonly got: string;
}

export interface PlayedTurn {
  readonly sent: string;
  readonly reply: string;
}

export async function playScript(
  script: Script,
  phone: PlayedPhone,
  onTurn: (turn: PlayedTurn) => void = () => {},
): Promise<Disagreement[]> {
  const disagreements: Disagreement[] = [];
  let [code, baby] = ['', ''];
  for (const [at, turn] of script.turns.entries()) {
    const disagree = (sent: string, wanted: string, got: string): void => {
      disagreements.push({ turn: at + 1, sent, wanted, got });
    };
    const withCode = (text: string): string => text.replaceAll('{code}', code).replaceAll('{baby}', baby);
    if (isLook(turn)) {
      const look = lookOf(turn);
      const texts = await phone.takeTexts(look.who);
      const whole = texts.join('\n');
      const shown = codeOf(texts.at(-1));
      if (look.who === 'worker') baby = shown ?? baby;
      else code = shown ?? code;
      const missing = look.nothing ? texts.map(() => 'nothing') : look.has.map(withCode).filter((part) => !contains(whole, part));
      const unwanted = look.lacks.map(withCode).filter((part) => contains(whole, part));
      for (const wanted of [...missing, ...unwanted.map((part) => `not: ${part}`)]) disagree(`(to ${look.who})`, wanted, texts.join(' | '));
      continue;
    }
    if ('wait' in turn) {
      phone.wait(turn.wait);
      continue;
    }
    const { sent, reply } = await perform(turn, phone, withCode);
    if (reply === null) continue;
    if (!('from' in turn || 'nurse' in turn)) baby = codeOf(reply) ?? baby;
    onTurn({ sent, reply });
    await check(turn, sent, reply, phone, withCode, disagree);
  }
  return disagreements;
}

function codeOf(text = ''): string | undefined {
  return /^[2-9][A-Z]{2}\b/.exec(text)?.[0];
}

interface Look {
  readonly who: Other | 'worker';
  readonly has: readonly string[];
  readonly lacks: readonly string[];
  readonly nothing: boolean;
}

function isLook(turn: ScriptTurn): turn is ScriptLook {
  return 'got-by' in turn || 'nurse-got' in turn || 'worker-got' in turn || 'nurse-got-nothing' in turn;
}

function lookOf(turn: ScriptLook): Look {
  const look: Look = { who: 'nurse', has: [], lacks: [], nothing: false };
  if ('nurse-got' in turn) return { ...look, has: turn['nurse-got'] };
  if ('worker-got' in turn) return { ...look, who: 'worker', has: turn['worker-got'] };
  if ('nurse-got-nothing' in turn) return { ...look, nothing: true };
  if ('nothing' in turn) return { ...look, who: turn['got-by'], nothing: true };
  return { ...look, who: turn['got-by'], has: turn.has ?? [], lacks: turn.lacks ?? [] };
}

async function perform(
  turn: ScriptAct,
  phone: PlayedPhone,
  withCode: (text: string) => string,
): Promise<{ sent: string; reply: string | null }> {
  if ('from' in turn) return { sent: `(${turn.from}) ${turn.send}`, reply: await phone.sendFrom(turn.from, withCode(turn.send)) };
  if ('send' in turn) return { sent: turn.send, reply: await phone.send(withCode(turn.send)) };
  if ('nurse' in turn) return { sent: `(nurse) ${turn.nurse}`, reply: await phone.sendFrom('nurse', withCode(turn.nurse)) };
  if ('switch' in turn) {
    phone.switchTo(turn.switch);
    return { sent: `(${turn.switch})`, reply: turn.switch === 'ussd' ? await phone.dialAgain() : null };
  }
  return { sent: '(dials again)', reply: await phone.dialAgain() };
}

async function check(
  turn: ScriptAct,
  sent: string,
  reply: string,
  phone: PlayedPhone,
  withCode: (text: string) => string,
  disagree: (sent: string, wanted: string, got: string) => void,
): Promise<void> {
  const isOther = 'nurse' in turn || 'from' in turn;
  const isText = isOther || phone.channel() === 'sms';
  if (turn.reply !== undefined && isText && reply !== withCode(turn.reply)) disagree(sent, turn.reply, reply);
  if (turn.segments !== undefined && isText && measure(reply).segments !== turn.segments)
    disagree(sent, `${turn.segments} segments`, reply);
  const wanted = (turn.has ?? []).map(withCode);
  const whole = wanted.every((part) => contains(reply, part)) ? reply : `${reply}\n${isOther ? '' : await phone.furtherPages()}`;
  for (const part of wanted) if (!contains(whole, part)) disagree(sent, part, whole);
  for (const part of turn.lacks ?? []) if (contains(whole, withCode(part))) disagree(sent, `not: ${part}`, whole);
}

function contains(text: string, part: string): boolean {
  const flat = (one: string): string => one.replace(/\s+/g, ' ').trim();
  return flat(text).includes(flat(part));
}
