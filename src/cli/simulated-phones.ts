// The phones of a programme inside one process: a worker's, by SMS or USSD, and everybody else's by SMS. They stand where
// gateways would: each message gets an id, a call its cumulative text, and what is sent out is delivered to whoever it is for.

import type { Channel, Incoming, Outgoing, Receive, SendText } from '../conversation/ports.ts';
import type { Other, PlayedPhone } from './play-script.ts';

export interface Delivery {
  readonly to: string;
  readonly text: string;
}

export interface PhonesParts {
  readonly worker: string;
  readonly nurse: string;
  readonly channel: Channel;
  readonly receive: Receive;
  /** Sends what is due. */
  readonly sendDue: () => Promise<number>;
  /** Moves the clock that the application reads. */
  readonly advance: (milliseconds: number) => void;
  /** How many times each message reaches the application: gateways deliver some twice. */
  readonly deliveries?: number;
}

const farthestPage = 15;

export class SimulatedPhones implements PlayedPhone {
  private readonly parts: PhonesParts;
  private current: Channel;
  private call: { readonly id: string; keyed: string } | null = null;
  private messages = 0;
  private inbox: readonly Delivery[] = [];
  /** All replies so far, for what they cost. */
  readonly replies: { readonly channel: Channel; readonly text: string }[] = [];

  constructor(parts: PhonesParts) {
    this.parts = parts;
    this.current = parts.channel;
  }

  channel(): Channel {
    return this.current;
  }

  switchTo(channel: Channel): void {
    this.current = channel;
    this.call = null;
  }

  async send(text: string): Promise<string> {
    if (this.current === 'sms') return (await this.deliver(this.text(this.parts.worker, text))).text;
    if (this.call === null) await this.dialAgain();
    const call = this.call as { readonly id: string; keyed: string } | null;
    if (call === null) return '';
    call.keyed = call.keyed === '' ? text : `${call.keyed}*${text}`;
    return this.key();
  }

  async dialAgain(): Promise<string | null> {
    if (this.current === 'sms') return null;
    this.messages += 1;
    this.call = { id: `call-${this.messages}`, keyed: '' };
    return this.key();
  }

  /** Hangs up without a word, as a lost signal does. */
  drop(): void {
    this.call = null;
  }

  isInCall(): boolean {
    return this.call !== null;
  }

  async furtherPages(): Promise<string> {
    const pages: string[] = [];
    for (let page = 0; page < farthestPage; page += 1) {
      if (this.current === 'ussd' && this.call === null) break;
      // The word, not 99: where a number is asked, 99 is one.
      const next = await this.send('MORE');
      if (next === pages.at(-1)) break;
      pages.push(next);
    }
    return pages.join('\n');
  }

  async sendFrom(who: Other, text: string): Promise<string> {
    return (await this.deliver(this.text(this.numberOf(who), text))).text;
  }

  async takeTexts(who: Other | 'worker'): Promise<string[]> {
    const phone = this.numberOf(who);
    return (await this.takeAll((to) => to === phone)).map(({ text }) => text);
  }

  /** Sends what is due; the texts to these numbers since they were last taken. */
  async takeAll(isWanted: (to: string) => boolean = () => true): Promise<Delivery[]> {
    while ((await this.parts.sendDue()) > 0);
    const taken = this.inbox.filter(({ to }) => isWanted(to));
    this.inbox = this.inbox.filter(({ to }) => !isWanted(to));
    return taken;
  }

  wait(duration: string): void {
    const [, days = '0', hours = '0', minutes = '0'] = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?)?$/.exec(duration) ?? [];
    this.parts.advance(((Number(days) * 24 + Number(hours)) * 60 + Number(minutes)) * 60_000);
  }

  /** Where texts go out to: each waits for the phone that it is for. */
  readonly outbox: SendText = async ({ key, to, text }) => {
    this.inbox = [...this.inbox, { to, text }];
    return { kind: 'sent', gatewayId: key };
  };

  private async key(): Promise<string> {
    const call = this.call;
    if (call === null) return '';
    const { worker } = this.parts;
    const outgoing = await this.deliver({
      channel: 'ussd',
      from: worker,
      id: `ussd:${call.id}:${call.keyed}`,
      text: call.keyed,
      dial: call.id,
    });
    if (outgoing.ends) this.call = null;
    return outgoing.text;
  }

  private numberOf(who: Other | 'worker'): string {
    return who === 'nurse' || who === 'worker' ? this.parts[who] : who;
  }

  private text(from: string, text: string): Incoming {
    this.messages += 1;
    return { channel: 'sms', from, id: `sms:${from}:${this.messages}`, text };
  }

  private async deliver(incoming: Incoming): Promise<Outgoing> {
    const outgoing = await this.parts.receive(incoming);
    for (let again = 1; again < (this.parts.deliveries ?? 1); again += 1) {
      const repeated = await this.parts.receive(incoming);
      if (repeated.text !== outgoing.text)
        throw new Error(`A message delivered twice was answered differently: "${outgoing.text}", then "${repeated.text}".`);
    }
    if (incoming.from === this.parts.worker) this.replies.push({ channel: incoming.channel, text: outgoing.text });
    return outgoing;
  }
}
