// The PIN of a phone that goes from hand to hand: what waits for it, wrong tries, calls, and that its digits stand nowhere.
// Next: never-waits.test.ts.

import { describe, expect, it } from 'vitest';
import type { Person, Sessions } from '../../../src/conversation/ports.ts';
import { memorySessions } from '../../support/memory-stores.ts';
import { nurse, rosterWith, testHash, textAll, worker } from '../station.ts';
import { asked, beSilent, holder, hour, leftHalfway, open, pin, wrong } from './closed-phone.ts';

describe('a phone with a PIN that was silent', () => {
  it.each(['LIST', 'MENU', '7FK', '7FK 1', '7FK she feeds well', 'RECHECK', 'RECHECK 7FK', 'VISIT 7FK', 'GO', 'hello', '0'])(
    'asks for it at %s, and says whom to ring',
    async (text) => {
      const station = open();
      await leftHalfway(station);
      const reply = await station.text(holder, text);
      expect(reply).toMatch(asked);
      expect(reply).toContain(nurse.phone);
    },
  );

  it('answers the message that waited as if it had just been sent', async () => {
    const plain = open({}, [worker, nurse]);
    await textAll(plain, worker, ['LIST', 'BABY 1 0430 39 3100']);
    const wanted = await plain.text(worker, '1');
    const station = open();
    await textAll(station, holder, ['LIST', pin, 'BABY 1 0430 39 3100']);
    beSilent(station);
    expect(await station.text(holder, '1')).toMatch(asked);
    expect(await station.textsOf(nurse)).toEqual([]);
    expect(await station.text(holder, ` ${pin}. `)).toBe(wanted);
    expect(await station.textsOf(nurse)).toHaveLength(1);
  });

  it('is open from then on, for as long as it is not silent', async () => {
    const station = open();
    await textAll(station, holder, ['LIST', pin]);
    for (let minutes = 0; minutes < 60; minutes += 10) {
      station.clock += 10 * 60_000;
      expect(await station.text(holder, 'LIST')).not.toMatch(asked);
    }
    beSilent(station);
    expect(await station.text(holder, 'LIST')).toMatch(asked);
  });

  it('takes the digits of any script, and the word before them', async () => {
    for (const digits of ['४८२०', `PIN ${pin}`, `Pin: ${pin}`]) {
      const station = open();
      expect(await station.text(holder, 'LIST')).toMatch(asked);
      expect(await station.text(holder, digits)).not.toMatch(/PIN/);
    }
  });

  it('is opened by a PIN that comes unasked, and shows the question that stands', async () => {
    const station = open();
    await leftHalfway(station);
    const question = await station.text(holder, pin);
    expect(question).not.toMatch(/PIN/);
    expect(await station.text(holder, 'GO')).toBe(question);
  });

  it('takes a weight for no answer and keeps no digits: they may be the PIN', async () => {
    const station = open();
    await leftHalfway(station);
    expect(await station.text(holder, wrong)).toContain('Not the PIN. 4 tries left');
    expect(await station.text(holder, `is it ${pin}`)).toMatch(asked);
    await station.text(holder, pin);
    const opened = await station.sessions.open(holder.phone, 'look', station.clock);
    const session = opened.kind === 'held' ? opened.held.session : '';
    expect(session).not.toContain(wrong);
    expect(session).not.toContain(pin);
  });

  it('asks nobody who has none, and no more once it is taken away; a new one is asked for at once', async () => {
    let people: readonly Person[] = [worker, nurse];
    const living = { ...rosterWith(people), find: (phone: string) => people.find((one) => one.phone === phone) };
    const station = open({ roster: living });
    expect(await station.text(worker, 'LIST')).not.toMatch(asked);
    people = [holder, nurse];
    expect(await station.text(worker, 'LIST')).toMatch(asked);
    expect(await station.text(worker, pin)).not.toMatch(/PIN/);
    people = [{ ...worker, pin: testHash(wrong) }, nurse];
    expect(await station.text(worker, 'LIST')).toMatch(asked);
    people = [worker, nurse];
    expect(await station.text(worker, 'LIST')).not.toMatch(asked);
  });

  it('asks for it again when its session was lost, and nothing else of it is lost', async () => {
    let stored: Sessions = memorySessions();
    const sessions: Sessions = {
      ...stored,
      open: (...asked) => stored.open(...asked),
      close: (...said) => stored.close(...said),
    };
    const station = open({ sessions });
    const list = await textAll(station, holder, ['LIST', pin, 'LIST']);
    stored = memorySessions();
    expect(await station.text(holder, 'LIST')).toMatch(asked);
    expect(await station.text(holder, pin)).toContain(list);
  });

  it('needs no register for it', async () => {
    const station = open();
    station.register.isDown = true;
    expect(await station.text(holder, 'LIST')).toMatch(asked);
    expect(await station.text(holder, pin)).toContain(nurse.phone);
    beSilent(station);
    expect(await station.text(holder, 'BABY 1 0430 39 3100')).not.toMatch(/PIN/);
  });
});

describe('a wrong PIN', () => {
  const closed = /^PIN closed for (\d+) min/;

  it('is told with the tries that are left; after five in an hour none is looked at, and BABY still works', async () => {
    const looked: string[] = [];
    const isPin = async (digits: string, hash: string): Promise<boolean> => {
      looked.push(digits);
      return hash === testHash(digits);
    };
    const station = open({ isPin });
    await station.text(holder, 'LIST');
    for (const left of [4, 3, 2]) expect(await station.text(holder, wrong)).toContain(`Not the PIN. ${left} tries left`);
    expect(await station.text(holder, wrong)).toContain('1 try left');
    expect(await station.text(holder, wrong)).toMatch(closed);
    const reply = await station.text(holder, pin);
    expect(reply).toMatch(closed);
    expect(reply).toContain(nurse.phone);
    expect(looked).toHaveLength(5);
    expect(await station.text(holder, 'BABY 1 0430 39 3100')).not.toMatch(/PIN/);
    expect(await station.text(holder, '1')).toMatch(/REFER NOW/);
    beSilent(station, hour);
    expect(await station.text(holder, 'LIST')).toMatch(asked);
    expect(await station.text(holder, pin)).not.toMatch(/PIN/);
  });

  it('tells no more after a right one came', async () => {
    const station = open();
    await textAll(station, holder, ['LIST', wrong, wrong, pin]);
    beSilent(station);
    expect(await station.text(holder, wrong)).toContain('4 tries left');
  });

  it('delivered twice counts once, and the right one is answered twice alike', async () => {
    const station = open({ sameTextMilliseconds: 6_000 });
    await station.text(holder, 'LIST');
    for (const id of ['one', 'one', 'two']) expect(await station.text(holder, wrong, id)).toContain('4 tries left');
    const reply = await station.text(holder, pin, 'three');
    expect(await station.text(holder, pin, 'three')).toBe(reply);
    expect(await station.text(holder, pin, 'four')).toBe(reply);
    expect(await station.text(holder, wrong.replace('5', '6'), 'one')).toContain('4 tries left');
  });

  it('leaves what waits where it was', async () => {
    const station = open();
    const list = await textAll(station, holder, ['LIST', pin, 'LIST']);
    beSilent(station);
    expect(await textAll(station, holder, ['LIST', wrong, pin])).toBe(list);
  });
});

describe('a call', () => {
  it('asks for the PIN on a screen, goes on with what waited, and keeps no digits of it', async () => {
    const station = open();
    await leftHalfway(station);
    const screen = await station.key(holder, 'call', '');
    expect(screen).toMatchObject({ text: expect.stringMatching(asked), ends: false });
    expect((await station.key(holder, 'call', wrong)).text).toContain('4 tries left');
    expect((await station.key(holder, 'call', `${wrong}*${pin}`)).text).toContain('Go on');
    expect((await station.key(holder, 'call', `${wrong}*${pin}*1`)).text).not.toMatch(/PIN/);
    expect((await station.key(holder, 'call', `${wrong}*${pin}*1*0`)).text).not.toMatch(/PIN/);
    const opened = await station.sessions.open(holder.phone, 'look', station.clock);
    expect(opened.kind === 'held' ? opened.held.session : '').not.toMatch(new RegExp(`${pin}|${wrong}`));
  });

  it('begins a new baby at 0, and at a dial when nothing waits', async () => {
    const station = open();
    expect((await station.key(holder, 'first', '')).text).not.toMatch(/PIN/);
    await leftHalfway(station);
    expect((await station.key(holder, 'second', '')).text).toMatch(asked);
    expect((await station.key(holder, 'second', '0')).text).not.toMatch(/PIN|Go on/);
  });

  it('goes on with a sick baby at once after it dropped', async () => {
    const station = open();
    await textAll(station, holder, ['BABY 1 0430 39 3100', '1']);
    beSilent(station, hour);
    expect((await station.key(holder, 'call', '')).text).toMatch(/REFER NOW/);
  });
});

describe('a PIN', () => {
  it('stands in no session, no row of the register, no text and no fault', async () => {
    const station = open({ sameTextMilliseconds: 6_000 });
    const replies = [];
    for (const text of ['LIST', wrong, pin, 'BABY 1 0430 39 3100', '1', '2', `PIN ${pin}`]) replies.push(await station.text(holder, text));
    const opened = await station.sessions.open(holder.phone, 'look', station.clock);
    const everything = [replies, opened, await station.register.dump(), station.sent, station.faults];
    expect(JSON.stringify(everything)).not.toContain(pin);
    expect(JSON.stringify(everything)).not.toContain(wrong);
  });
});
