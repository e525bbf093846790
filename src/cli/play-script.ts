// Plays a written conversation on a phone and says where what came back differs from what was written.
// `{code}` in a line stands for the code of the alert that the nurse was last told of.

import { measure } from '../messages/segments.ts';
import type { Script, ScriptTurn } from './script.ts';

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
  sendAsNurse(text: string): Promise<string>;
  /** Texts that reached the nurse or the worker since the last call. */
  takeTexts(of: 'nurse' | 'worker'): Promise<string[]>;
  wait(duration: string): void;
}

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
  let code = '';
  for (const [at, turn] of script.turns.entries()) {
    const disagree = (sent: string, wanted: string, got: string): void => {
      disagreements.push({ turn: at + 1, sent, wanted, got });
    };
    const withCode = (text: string): string => text.replaceAll('{code}', code);
    if ('nurse-got' in turn || 'worker-got' in turn) {
      const of = 'nurse-got' in turn ? 'nurse' : 'worker';
      const wanted = 'nurse-got' in turn ? turn['nurse-got'] : turn['worker-got'];
      const texts = await phone.takeTexts(of);
      code = of === 'nurse' ? (/^\S{3}/.exec(texts.at(-1) ?? '')?.[0] ?? code) : code;
      for (const part of wanted) if (!contains(texts.join('\n'), withCode(part))) disagree(`(to ${of})`, part, texts.join(' | '));
      continue;
    }
    if ('nurse-got-nothing' in turn) {
      const texts = await phone.takeTexts('nurse');
      if (texts.length > 0) disagree('(to nurse)', 'nothing', texts.join(' | '));
      continue;
    }
    if ('wait' in turn) {
      phone.wait(turn.wait);
      continue;
    }
    const { sent, reply } = await perform(turn, phone, withCode);
    if (reply === null) continue;
    onTurn({ sent, reply });
    await check(turn, sent, reply, phone, withCode, disagree);
  }
  return disagreements;
}

type Checked = Extract<ScriptTurn, { has?: unknown }>;

async function perform(
  turn: Checked,
  phone: PlayedPhone,
  withCode: (text: string) => string,
): Promise<{ sent: string; reply: string | null }> {
  if ('send' in turn) return { sent: turn.send, reply: await phone.send(withCode(turn.send)) };
  if ('nurse' in turn) return { sent: `(nurse) ${turn.nurse}`, reply: await phone.sendAsNurse(withCode(turn.nurse)) };
  if ('switch' in turn) {
    phone.switchTo(turn.switch);
    return { sent: `(${turn.switch})`, reply: turn.switch === 'ussd' ? await phone.dialAgain() : null };
  }
  return { sent: '(dials again)', reply: await phone.dialAgain() };
}

async function check(
  turn: Checked,
  sent: string,
  reply: string,
  phone: PlayedPhone,
  withCode: (text: string) => string,
  disagree: (sent: string, wanted: string, got: string) => void,
): Promise<void> {
  const isText = 'nurse' in turn || phone.channel() === 'sms';
  if (turn.reply !== undefined && isText && reply !== withCode(turn.reply)) disagree(sent, turn.reply, reply);
  if (turn.segments !== undefined && isText && measure(reply).segments !== turn.segments)
    disagree(sent, `${turn.segments} segments`, reply);
  const wanted = (turn.has ?? []).map(withCode);
  const whole = wanted.every((part) => contains(reply, part)) ? reply : `${reply}\n${'nurse' in turn ? '' : await phone.furtherPages()}`;
  for (const part of wanted) if (!contains(whole, part)) disagree(sent, part, whole);
  for (const part of turn.lacks ?? []) if (contains(whole, withCode(part))) disagree(sent, `not: ${part}`, whole);
}

function contains(text: string, part: string): boolean {
  const flat = (one: string): string => one.replace(/\s+/g, ' ').trim();
  return flat(text).includes(flat(part));
}
