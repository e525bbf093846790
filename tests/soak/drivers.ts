// Workers of a soak: each examines one baby after another at a given pace, most of them well, and insists on an answer: a text that was
// not answered is brought again under its id, as a gateway does. Next: books.ts, where what they did is held against the register.

import { readTwiml } from '../support/channel-sms.ts';
import { deliver, RESULT, type Text, textOf, WHO } from '../support/end-to-end-phones.ts';

export interface Driven {
  readonly phone: string;
  /** Results that she read. */
  well: number;
  urgent: number;
  texts: number;
  /** Deliveries that brought no answer. */
  unanswered: number;
  /** Replies that no worker should get. */
  readonly wrong: string[];
}

export interface DriverParts {
  readonly phone: string;
  /** Server of the next delivery. */
  readonly url: () => string;
  /** Resolves when it is her turn to text. */
  readonly pace: () => Promise<void>;
  readonly goesOn: () => boolean;
  readonly random: () => number;
  readonly answered: (one: { readonly began: number; readonly ended: number; readonly url: string }) => void;
}

const urgentShare = 0.1;
const mostTries = 200;

export async function drive(parts: DriverParts): Promise<Driven> {
  const driven: Driven = { phone: parts.phone, well: 0, urgent: 0, texts: 0, unanswered: 0, wrong: [] };
  const say = async (body: string): Promise<string> => {
    await parts.pace();
    driven.texts += 1;
    return insist(textOf(parts.phone, body), driven, parts);
  };
  while (parts.goesOn()) {
    const isUrgent = parts.random() < urgentShare;
    await say(`BABY ${WHO}`);
    let reply = await say(isUrgent ? '1' : '0');
    for (let asked = 0; !isEnd(reply, isUrgent) && asked < 30; asked += 1) reply = await say(answerTo(reply));
    if (!isEnd(reply, isUrgent)) driven.wrong.push(reply);
    else if (isUrgent) driven.urgent += 1;
    else driven.well += 1;
  }
  return driven;
}

const isEnd = (reply: string, isUrgent: boolean): boolean =>
  isUrgent ? reply.includes('REFER NOW') && !reply.includes('2 finish') : RESULT.test(reply);

function answerTo(reply: string): string {
  if (reply.includes('2 finish')) return '2';
  return reply.includes('36.8') ? '36.8 44 132' : '0';
}

async function insist(text: Text, driven: Driven, { url, answered }: DriverParts): Promise<string> {
  for (let tries = 0; tries < mostTries; tries += 1) {
    const server = url();
    const began = performance.now();
    const answer = await deliver(server, text).catch(() => null);
    if (answer?.status === 200) {
      const reply = readTwiml(answer.body) ?? '';
      if (!reply.startsWith('Still answering')) {
        answered({ began, ended: performance.now(), url: server });
        return reply;
      }
    }
    driven.unanswered += 1;
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
  throw new Error(`${text.from} was not answered in ${mostTries} tries: ${text.body}`);
}
