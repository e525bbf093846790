// What a phone's session holds of its owner's PIN: until when it is open, what waits for the PIN, and the wrong tries. Never the PIN
// itself, nor a message in which it may stand. Pure. Next: pass-pin.ts.

import { normalise } from '../../dialog/readings/tokens.ts';

export interface PinState {
  /** When a message last came through because of the PIN, and of which PIN that was: another is asked for at once. */
  readonly opened?: { readonly at: number; readonly of: string };
  /** An examination that was begun while the phone was closed, and when it was last answered. */
  readonly begun?: { readonly examination: string; readonly at: number };
  /** When the PIN was asked for, and the message that waits for it. */
  readonly asked?: { readonly at: number; readonly held?: HeldMessage };
  /** When a wrong PIN came, oldest first. */
  readonly wrong?: readonly number[];
}

export interface HeldMessage {
  readonly text: string;
  readonly dialled: boolean;
}

export const noPinState: PinState = {};

/** Wrong tries within an hour; after these none is looked at until the first is an hour old. */
export const mostTries = 5;
const hour = 3_600_000;

/** As a session was stored; what cannot be read is as if there was nothing, and the PIN is asked for. */
export function readPinState(value: unknown): PinState {
  if (typeof value !== 'object' || value === null) return noPinState;
  const { wrong } = value as PinState;
  return wrong === undefined || (Array.isArray(wrong) && wrong.every((at) => typeof at === 'number')) ? (value as PinState) : noPinState;
}

/** The wrong tries that still count. */
export function wrongLately({ wrong = [] }: PinState, now: number): readonly number[] {
  return wrong.filter((at) => at > now - hour);
}

/** Whole minutes until a PIN is looked at again; 0: it is now. */
export function closedMinutes(state: PinState, now: number): number {
  const [first = 0, ...others] = wrongLately(state, now);
  return others.length + 1 < mostTries ? 0 : Math.max(1, Math.ceil((first + hour - now) / 60_000));
}

/** The PIN that a message is, in ASCII digits; null: it is none. */
export function pinIn(text: string): string | null {
  return /^(?:pin\W{0,3})?(\d{4,8})\W{0,3}$/.exec(normalise(text))?.[1] ?? null;
}

/** True: a PIN may stand in it, so that it is not kept. */
export function mayHoldPin(text: string): boolean {
  return /\d{4}/.test(normalise(text));
}
