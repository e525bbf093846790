// The door for what the centre delivers: texts and their parts, screens of USSD calls, receipts. A text is acknowledged when its reply
// was taken, so that one whose answer is lost is delivered again and answered from memory; a call is acknowledged at once, because its
// centre waits for that before it takes a screen. Next: fields.ts, repeats.ts, calls.ts; take-text.ts and caller.ts, as at every door.

import type { Pdu } from 'smpp';
import type { Outgoing } from '../../conversation/ports.ts';
import { admitCaller } from '../caller.ts';
import type { Door } from '../door.ts';
import { describeFault } from '../fault.ts';
import { maskPhone } from '../mask.ts';
import { toPlainText } from '../plain-text.ts';
import type { Room } from '../room.ts';
import { takeText } from '../take-text.ts';
import type { Timing } from '../timing.ts';
import { cutToScreen } from '../ussd/reply.ts';
import type { UssdScreen } from '../ussd/webhook.ts';
import { rememberCalls } from './calls.ts';
import { type Delivered, readDelivered } from './fields.ts';
import { collectParts } from './parts.ts';
import { STATUS, USSD } from './protocol.ts';
import { rememberRepeats } from './repeats.ts';
import { screenFields } from './screen.ts';
import { textFields } from './send.ts';
import type { Take } from './session.ts';
import { type ReceiptDoor, takeReceipt } from './status.ts';
import { isReceipt } from './status-fields.ts';
import { decodeText } from './text-coding.ts';
import { isForLater, type Submit } from './window.ts';

export interface SmppDoorParts extends Door {
  readonly submit: Submit;
  readonly screen: UssdScreen;
  readonly room: Room;
  readonly receipts: Omit<ReceiptDoor, 'log' | 'timing'>;
  readonly timing: Timing;
  /** A name that no other process has, nor this one after a restart. */
  readonly process: string;
}

export interface SmppDoor {
  readonly take: Take;
  linkLost(): void;
  /** Takes nothing new; resolves when all that was taken is answered. */
  drain(): Promise<void>;
}

export function smppDoor(door: SmppDoorParts): SmppDoor {
  const { timing } = door;
  const parts = collectParts();
  const repeats = rememberRepeats(door.process, timing.now);
  const calls = rememberCalls(door.process);
  const calling = new Set<string>();
  const going = new Set<Promise<unknown>>();
  let isClosed = false;

  const goOn = <T>(work: Promise<T>): Promise<T> => {
    const one = work.finally(() => going.delete(one));
    going.add(one);
    return one;
  };
  const inRoom = async (work: () => Promise<number>): Promise<number> => {
    const leave = door.room.enter();
    if (leave === undefined) {
      door.log.warn('more messages at once than are answered; the centre is to deliver this one again');
      return STATUS.notNow;
    }
    return work().finally(leave);
  };

  const answerText = async ({ from, to }: Delivered, id: string, text: string): Promise<number> => {
    const taken = await takeText(door, { gateway: 'smpp', from, id, text });
    if (taken.kind === 'failed') return STATUS.notNow;
    if (taken.text === '') return STATUS.ok;
    const submitted = await door.submit(textFields(to, taken.to, taken.text));
    if (submitted.kind === 'taken') return STATUS.ok;
    door.log.error({ to: maskPhone(taken.to), id, submitted }, 'a reply could not be submitted');
    return isForLater(submitted) ? STATUS.notNow : STATUS.ok;
  };
  const takeSms = (delivered: Delivered): Promise<number> => {
    const text = decodeText(delivered.body);
    if (text === undefined) {
      door.log.info({ coding: delivered.body.coding }, 'the centre delivered data that is no text; it is not answered');
      return Promise.resolve(STATUS.ok);
    }
    return repeats.answer(delivered, (id) => inRoom(() => answerText(delivered, id, text)));
  };
  const takePart = (delivered: Delivered, part: NonNullable<Delivered['part']>): Promise<number> => {
    const joined = parts.add(delivered, part, timing.now());
    const lost = parts.letGo(timing.now());
    if (lost > 0) door.log.warn({ lost }, 'long texts were let go: some of their parts never came');
    if (joined.kind === 'refused') door.log.warn({ parts: part.total }, 'a text has more parts than are taken; it is not answered');
    if (joined.kind !== 'whole') return Promise.resolve(STATUS.ok);
    return takeSms({ ...delivered, body: { ...delivered.body, bytes: joined.bytes } });
  };

  const screenFor = async (from: string, id: string, dial: string, begins: boolean, text: string): Promise<Outgoing> => {
    const caller = await admitCaller(door, 'smpp', from);
    if (caller.kind === 'not-a-number') return { text: '', ends: true };
    if (caller.kind !== 'admitted') return { text: door.screen.busyText(caller.from), ends: true };
    try {
      return await door.receive({ channel: 'ussd', from: caller.from, id, dial, keyed: begins ? 'dialled' : 'answer', text });
    } catch (error) {
      door.log.error({ from: maskPhone(caller.from), id, fault: describeFault(error) }, 'a USSD screen could not be answered');
      return { text: door.screen.brokenText(caller.from), ends: true };
    }
  };
  const answerCall = async (delivered: Delivered, session: Buffer, begins: boolean): Promise<number> => {
    const text = toPlainText(decodeText(delivered.body) ?? '');
    // Delivered again while it is answered: one screen is enough.
    const said = JSON.stringify([delivered.from, session.toString('hex'), begins, text]);
    if (calling.has(said)) return STATUS.ok;
    calling.add(said);
    const { dial, id } = calls.message(delivered.from, session, begins, text);
    try {
      const outgoing = await screenFor(delivered.from, id, dial, begins, text);
      const shown = cutToScreen(outgoing.text, door.screen.fits);
      if (shown !== outgoing.text)
        door.log.error({ length: outgoing.text.length, shown: shown.length }, 'a screen was too long and was cut');
      const submitted = await door.submit(screenFields(delivered, session, { ...outgoing, text: shown }));
      if (submitted.kind === 'taken') calls.shown(delivered.from, dial);
      else door.log.error({ id, submitted }, 'a USSD screen could not be submitted');
      return STATUS.ok;
    } finally {
      calling.delete(said);
    }
  };
  const takeCall = (delivered: Delivered, { operation, session }: NonNullable<Delivered['ussd']>): number => {
    const begins = operation === USSD.begins;
    // The others say that a screen was shown or that the call is over; nobody sees an answer to that.
    if (!begins && operation !== USSD.answers) return STATUS.ok;
    const leave = door.room.enter();
    if (leave === undefined) return STATUS.notNow;
    void goOn(answerCall(delivered, session, begins).finally(leave));
    return STATUS.ok;
  };

  return {
    take: async (pdu: Pdu) => {
      if (isClosed) return STATUS.notNow;
      const delivered = readDelivered(pdu);
      if (delivered.ussd !== undefined) return takeCall(delivered, delivered.ussd);
      if (delivered.isIntermediate) return STATUS.ok;
      if (isReceipt(delivered)) return goOn(takeReceipt({ ...door.receipts, log: door.log, timing }, delivered));
      return goOn(delivered.part === undefined ? takeSms(delivered) : takePart(delivered, delivered.part));
    },
    linkLost: () => repeats.linkLost(),
    drain: async () => {
      isClosed = true;
      while (going.size > 0) await Promise.allSettled(going);
    },
  };
}
