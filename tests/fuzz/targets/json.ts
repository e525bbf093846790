// JSON from elsewhere: cases for `pipit assess`, sessions as a store may give them back, answers of a gateway. A case that is accepted is
// interpreted; a session that is read takes a turn; an answer of a gateway is an id, a reason, or nothing.

import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { readSid, refusalReason } from '../../../src/channels/sms/gateway-answer.ts';
import { loadForAssess, runAssess } from '../../../src/cli/assess.ts';
import { readSession, writeSession } from '../../../src/conversation/stored-session.ts';
import { newSession, type Session } from '../../../src/dialog/session.ts';
import { morning, turnOf } from '../../properties/any-dialog.ts';
import type { Chance } from '../../simulation/chance.ts';
import { conversations, messages } from '../good-messages.ts';
import { mutate } from '../mutate.ts';
import { noise, prototypeNames } from '../noise.ts';
import { type Target, usualLimitMilliseconds } from '../target.ts';

const flows = new URL('../../../flows/', import.meta.url);
const protocol = await loadForAssess(flows.pathname);
const written = parse(readFileSync(new URL('reference-cases/teaching.yaml', flows), 'utf8')) as {
  readonly cases: readonly { readonly input: unknown }[];
};
const cases = written.cases.map(({ input }) => JSON.stringify(input));

/** What stands at some name or in some place is something else. */
function hurtJson(text: string, chance: Chance): string {
  const value = chance.pick([
    'null',
    '[]',
    '{}',
    '-1',
    '1e999',
    '"x"',
    'true',
    '[[]]',
    '{"__proto__":{"a":1}}',
    String(chance.whole(0, 9_999)),
    JSON.stringify(noise(chance)),
  ]);
  switch (chance.whole(0, 5)) {
    case 0:
      return text.replace(/:("[^"]*"|[\d.]+|true|false|null)/g, (found) => (chance.is(0.2) ? `:${value}` : found));
    case 1:
      return text.replace(/"[\w-]+":/g, (found) => (chance.is(0.1) ? `"${chance.pick(prototypeNames)}":` : found));
    case 2:
      return `${text.slice(0, -1)},${text.slice(1)}`;
    case 3:
      return chance.is(0.05) ? '['.repeat(chance.whole(1, 100_000)) : `[${text},${value}]`;
    case 4:
      return text.replace(/"[\w-]+":(?:"[^"]*"|[\d.]+|true|false|null),?/, '');
    default:
      return mutate(text, chance, [text]);
  }
}

function sessionsDrawn(): readonly string[] {
  return conversations.slice(0, 60).flatMap((texts) => {
    let session: Session = newSession;
    return texts.slice(0, 12).map((text, at) => {
      ({ session } = turnOf(session, text, morning + at * 40_000));
      return writeSession(session);
    });
  });
}
const sessions = sessionsDrawn();

export const jsonRead: readonly Target[] = [
  {
    name: 'json/assess',
    share: 20,
    limitMilliseconds: usualLimitMilliseconds,
    draw: (chance) => [chance.pick(['one', 'lines']), chance.is(0.15) ? chance.pick(cases) : hurtJson(chance.pick(cases), chance)],
    take: ([how, text = '']) => {
      const { exitCode, stderr } = runAssess(text, { protocol, lines: how === 'lines' });
      if (exitCode !== 0 && stderr.trim() === '') throw new Error('It was refused without a word.');
      if (exitCode === 0) return 'accepted';
      return isJson(text) ? 'refused' : 'refused-at-once';
    },
  },
  {
    name: 'json/session',
    share: 25,
    limitMilliseconds: usualLimitMilliseconds,
    draw: (chance) => [
      chance.is(0.3) ? mutate(chance.pick(sessions), chance) : hurtJson(chance.pick(sessions), chance),
      chance.pick(messages),
    ],
    take: ([text = '', message = ''], timed) => {
      const { damaged } = timed(() => readSession(text));
      return damaged ? refusedAfter(message) : 'accepted';
    },
  },
  {
    name: 'json/gateway',
    share: 15,
    limitMilliseconds: usualLimitMilliseconds,
    draw: (chance) => {
      const good = chance.pick(['{"sid":"SM1","status":"queued"}', '{"code":21610,"message":"no"}', '<html>login</html>', '']);
      return [chance.is(0.2) ? good : hurtJson(good, chance)];
    },
    take: ([text = '']) => {
      const sid = readSid(text);
      if (sid === '') throw new Error('It read an empty id.');
      if (!/^http 503(, gateway code -?\d+(e\+\d+)?)?$/.test(refusalReason(503, text)))
        throw new Error(`It gave the reason "${refusalReason(503, text)}".`);
      if (sid !== undefined) return 'accepted';
      return isJson(text) ? 'refused' : 'refused-at-once';
    },
  },
];

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** A phone whose session is damaged begins anew. */
function refusedAfter(message: string): 'refused' {
  turnOf(readSession('').session, message, morning);
  return 'refused';
}
