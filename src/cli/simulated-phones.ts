// The phones of a facility inside one process: the worker's, by SMS or USSD, and the nurse's. They stand where gateways
// would: each message gets an id, a call its cumulative text, and what is sent out is delivered to whoever it is for.

import type { Channel, Incoming, Outgoing, Receive, SendText } from '../conversation/ports.ts';
import type { PlayedPhone } from './play-script.ts';

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
  private readonly inboxes = new Map<string, string[]>();
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

  async sendAsNurse(text: string): Promise<string> {
    return (await this.deliver(this.text(this.parts.nurse, text))).text;
  }

  async takeTexts(of: 'nurse' | 'worker'): Promise<string[]> {
    while ((await this.parts.sendDue()) > 0);
    const phone = of === 'nurse' ? this.parts.nurse : this.parts.worker;
    const texts = this.inboxes.get(phone) ?? [];
    this.inboxes.set(phone, []);
    return texts;
  }

  wait(duration: string): void {
    const [, days = '0', hours = '0', minutes = '0'] = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?)?$/.exec(duration) ?? [];
    this.parts.advance(((Number(days) * 24 + Number(hours)) * 60 + Number(minutes)) * 60_000);
  }

  /** Where texts go out to: into the inbox of the phone they are for. */
  readonly outbox: SendText = async ({ key, to, text }) => {
    this.inboxes.set(to, [...(this.inboxes.get(to) ?? []), text]);
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
