// The PIN of a phone that goes from hand to hand: what waits for it, what never does, wrong tries, and that its digits stand nowhere.
// The hash is a stand-in here; the real one is in tests/cli/roster-pins.test.ts.

import { describe, expect, it } from 'vitest';
import type { Person, Sessions } from '../../../src/conversation/ports.ts';
import { memorySessions } from '../../support/memory-stores.ts';
import {
  nurse,
  nurseWorker,
  openStation,
  otherNurse,
  pinMilliseconds,
  raiseAlert,
  rosterWith,
  type Station,
  testHash,
  textAll,
  worker,
} from '../station.ts';

const pin = '4820';
const wrong = '5937';
const holder: Person = { ...worker, pin: testHash(pin) };
const asked = /^PHONE CLOSED\. Send your PIN/;
const hour = 3_600_000;

type Settings = Parameters<typeof openStation>[0];
const open = (settings: Settings = {}, people: readonly Person[] = [holder, nurse, otherNurse]): Station =>
  openStation({ roster: rosterWith(people), ...settings });

/** Silent for longer than a phone stays open. */
function beSilent(station: Station, milliseconds = pinMilliseconds): void {
  station.clock += milliseconds;
}

/** A well girl, whose first questions were answered, then silence. */
async function leftHalfway(station: Station): Promise<void> {
  await textAll(station, holder, ['LIST', pin, 'BABY 1 0430 39 3100', '0']);
  beSilent(station);
}

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
    const [plain, closed] = [open({}, [worker, nurse]), open()];
    await textAll(plain, worker, ['LIST', 'NURSE', 'BABY 1 0430 39 3100']);
    await textAll(closed, holder, ['LIST', pin, 'BABY 1 0430 39 3100']);
    for (const station of [plain, closed]) beSilent(station);
    expect(await closed.text(holder, '1')).toMatch(asked);
    const first = await plain.text(worker, '1');
    const then = await closed.text(holder, ` ${pin}. `);
    const withoutCode = (text: string) => text.replace(/\d h/g, '');
    expect(withoutCode(then)).toBe(withoutCode(first));
    expect((await closed.textsOf(nurse)).length).toBe(1);
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

describe('what never waits for a PIN', () => {
  it('is a new baby, from its first question to a fit that is found', async () => {
    const station = open();
    await leftHalfway(station);
    expect(await station.text(holder, 'BABY')).not.toMatch(/PIN|Go on/);
    expect(await station.text(holder, '2 0430 39 3100')).not.toMatch(/PIN/);
    expect(await station.text(holder, '1')).toMatch(/REFER NOW/);
    expect(await station.textsOf(nurse)).toHaveLength(1);
  });

  it('is a new baby by the digit of the menu that was shown, or by 0 where the PIN is asked for', async () => {
    const station = open();
    await leftHalfway(station);
    await textAll(station, holder, ['MENU', pin]);
    beSilent(station);
    expect(await station.text(holder, '1')).toMatch(asked);
    expect(await station.text(holder, '2')).not.toMatch(/PIN/);
    const other = open();
    await leftHalfway(other);
    expect(await other.text(holder, 'MENU')).toMatch(asked);
    expect(await other.text(holder, '0')).not.toMatch(/PIN|Go on/);
  });

  it('is a sick baby: the advice goes on hours later, page by page and to the end of the check', async () => {
    const station = open();
    await textAll(station, holder, ['BABY 1 0430 39 3100', '1']);
    for (const text of ['1', 'WHY', '?', 'GO', '2', '0']) {
      beSilent(station, hour);
      expect(await station.text(holder, text)).not.toMatch(/PIN/);
    }
    for (const text of ['LIST', 'MENU']) expect(await station.text(holder, text)).toMatch(asked);
    expect(await station.text(holder, 'GO')).not.toMatch(/PIN/);
    beSilent(station, 24 * hour);
    expect(await station.text(holder, 'GO')).toMatch(asked);
  });

  it("is the nurse's number", async () => {
    const station = open();
    expect(await station.text(holder, 'NURSE')).toContain(nurse.phone);
  });

  it('is an alert that rings: a nurse takes it whatever her phone is', async () => {
    const shared = { ...nurse, pin: testHash(pin) };
    const station = open({}, [worker, shared, { ...otherNurse, pin: testHash(pin) }]);
    const code = await raiseAlert(station, worker);
    expect(await station.text(shared, code)).toContain(`${code} is yours`);
    expect(await station.text(shared, `${code} warm her`)).toMatch(/^Sent/);
    expect(await station.text(shared, `${code} DONE`)).toContain('closed');
  });

  it('is not what a nurse who examines babies may read of them', async () => {
    const shared = { ...nurseWorker, pin: testHash(pin) };
    const station = open({}, [worker, nurse, shared]);
    expect(await station.text(shared, 'LIST')).toMatch(asked);
    const code = await raiseAlert(station, worker);
    expect(await station.text(shared, code)).not.toMatch(/REFER|girl/);
  });

  it('is open no further than that: what was begun so is left to the PIN once the phone was silent', async () => {
    const station = open();
    await leftHalfway(station);
    await textAll(station, holder, ['BABY 2 0430 39 3100', '0']);
    expect(await station.text(holder, 'LIST')).toMatch(asked);
    expect(await station.text(holder, '0')).not.toMatch(/PIN/);
    await textAll(station, holder, ['BABY 2 0430 39 3100', '0']);
    beSilent(station);
    expect(await station.text(holder, '0')).toMatch(asked);
  });

  it('is no answer about a baby that is known, while a sick one is in hand', async () => {
    const station = open();
    await textAll(station, holder, ['LIST', pin, 'BABY 1 0430 39 3100', '1']);
    const [alert = ''] = await station.textsOf(nurse);
    expect(await station.text(holder, alert.slice(0, 3))).not.toMatch(/PIN/);
    beSilent(station);
    expect(await station.text(holder, '1')).toMatch(asked);
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
