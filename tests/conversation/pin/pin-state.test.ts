// What a session holds of a PIN: which messages are one, which may hold one, how long wrong tries count, and what a damaged one is.

import { describe, expect, it } from 'vitest';
import { closedMinutes, mayHoldPin, noPinState, pinIn, readPinState } from '../../../src/conversation/pin/pin-state.ts';
import { readSession, writeSession } from '../../../src/conversation/stored-session.ts';
import { keyedLast, veiled } from '../../../src/conversation/ussd-input.ts';
import { newSession } from '../../../src/dialog/session.ts';

const minute = 60_000;

describe('a message', () => {
  it.each([
    ['4820', '4820'],
    [' 48201937. ', '48201937'],
    ['PIN 4820', '4820'],
    ['pin:4820#', '4820'],
    ['४८२०', '4820'],
    ['482', null],
    ['482019375', null],
    ['4820 39', null],
    ['36.8', null],
    ['my pin 4820', null],
  ])('"%s" is the PIN %s', (text, pin) => {
    expect(pinIn(text)).toBe(pin);
  });

  it.each([
    ['is it 4820', true],
    ['48b4820', true],
    ['१२ ४८२०', true],
    ['36.8 44 132', false],
    ['7FK 1', false],
  ])('"%s" may hold one: %s', (text, may) => {
    expect(mayHoldPin(text)).toBe(may);
  });
});

describe('wrong tries', () => {
  it('close the PIN from the fifth until the first is an hour old', () => {
    const wrong = [0, 10, 20, 30, 40].map((at) => at * minute);
    const closedAt = (at: number, tries = wrong): number => closedMinutes({ wrong: tries }, at * minute);
    expect([40, 59, 59.5, 60, 61].map((at) => closedAt(at))).toEqual([20, 1, 1, 0, 0]);
    expect(closedAt(40, wrong.slice(1))).toBe(0);
    expect(closedMinutes(noPinState, 0)).toBe(0);
  });
});

describe('what is stored', () => {
  const state = { opened: { at: 5, of: 'abc' }, wrong: [1], asked: { at: 2, held: { text: 'LIST', dialled: false } } };

  it('comes back as it was beside the session, and is nothing for who has no PIN', () => {
    expect(readSession(writeSession(newSession, state))).toMatchObject({ session: newSession, pin: state, damaged: false });
    expect(writeSession(newSession)).not.toContain('pin');
  });

  it.each([undefined, null, 7, 'abc', { wrong: 'often' }, { wrong: [null] }])('is nothing when it is %j: the PIN is asked for', (value) => {
    expect(readPinState(value)).toEqual({});
  });
});

describe('what was keyed in a call', () => {
  it('is kept with a PIN veiled, and the next answer is still told from what came before', () => {
    const keyed = veiled('3*4820');
    expect(keyed).toBe('3*____');
    const before = { id: 'call', keyed };
    expect(keyedLast(before, 'call', '3*4820*36*8')).toEqual({ kind: 'answer', text: '36*8' });
    expect(keyedLast(before, 'call', '3*4820')).toEqual({ kind: 'dialled' });
    expect(keyedLast(before, 'call', '3*4820*5937')).toEqual({ kind: 'answer', text: '5937' });
    expect(keyedLast({ id: 'call', keyed: veiled('4820') }, 'call', '4820*1')).toEqual({ kind: 'answer', text: '1' });
  });
});
