// One message from end to end, over sessions in memory and a real register: what happens when it comes twice, too soon, to a damaged session, past its
// lock, or while the register is away.

import { describe, expect, it } from 'vitest';
import type { Held, Sessions } from '../../src/conversation/ports.ts';
import { memorySessions } from '../support/memory-stores.ts';
import { morning, nurse, nurseWorker, openStation, raiseAlert, textAll, worker } from './station.ts';

const stranger = { ...worker, phone: '+254700555999' };

describe('a message', () => {
  it('that comes twice is answered the same and counts once', async () => {
    const station = openStation();
    await station.text(worker, 'BABY 1 0430 39 3100');
    const first = await station.text(worker, '1', 'the-same');
    const written = await station.register.dump();
    expect(await station.text(worker, '1', 'the-same')).toBe(first);
    expect(await station.register.dump()).toEqual(written);
    expect(await station.textsOf(nurse)).toHaveLength(1);
  });

  it('from a number that is not on the roster is told so, and no session is kept for it', async () => {
    const station = openStation();
    expect(await station.text(stranger, 'BABY')).toMatch(/not on the roster/);
    expect(await station.sessions.open(stranger.phone, 'another', station.clock)).toMatchObject({ kind: 'held', held: { session: null } });
  });

  it('that finds another one of its phone still being answered waits for it, and is asked to be sent again if that takes too long', async () => {
    const station = openStation();
    const held = await station.sessions.open(worker.phone, 'the-slow-one', morning);
    expect(held.kind).toBe('held');
    expect(await station.text(worker, 'BABY')).toMatch(/Still answering/);
    expect(station.pauses.length).toBeGreaterThan(3);
    expect([...station.pauses].sort((one, two) => one - two)).toEqual(station.pauses);
  });

  it('that waited is answered as soon as the other one is done', async () => {
    const station = openStation({ sessions: busyFor(3) });
    expect(await station.text(worker, 'BABY')).toMatch(/New baby/);
    expect(station.pauses.filter((pause) => pause < 1_000)).toHaveLength(3);
  });

  it.each([
    '',
    '{',
    'null',
    '[]',
    '{"v":1}',
    '{"v":99,"lastMessageAt":1}',
    '{"v":1,"lastMessageAt":1,"open":5}',
    '{"v":1,"lastMessageAt":1,"aside":{}}',
  ])('that finds its session damaged (%j) begins anew, and says so in the log', async (damaged) => {
    const station = openStation();
    const opened = await station.sessions.open(worker.phone, 'before', morning);
    if (opened.kind !== 'held') throw new Error('The session is not held.');
    await station.sessions.close(opened.held, 'before', damaged, '', morning);
    expect(await station.text(worker, 'BABY')).toMatch(/New baby/);
    expect(station.faults).toEqual(['a stored session could not be read and was begun anew']);
  });

  it('whose lock ran out before its session was closed is taken anew, and its facts are written once', async () => {
    const sessions = memorySessions();
    let lost = 0;
    const station = openStation({
      sessions: {
        ...sessions,
        async close(held: Held, id, session, reply, now) {
          if (id === 'slow' && lost < 2) {
            lost += 1;
            await sessions.release(held);
            return false;
          }
          return sessions.close(held, id, session, reply, now);
        },
      },
    });
    await station.text(worker, 'BABY 1 0430 39 3100');
    expect(await station.text(worker, '1', 'slow')).toMatch(/REFER NOW/);
    expect(lost).toBe(2);
    expect(await station.register.counts()).toMatchObject({ alerts: 1, texts_out: 1 });
    expect(await station.textsOf(nurse)).toHaveLength(1);
  });

  it('whose lock runs out every time breaks with a remedy', async () => {
    const sessions = memorySessions();
    const station = openStation({
      sessions: {
        ...sessions,
        async close(held) {
          await sessions.release(held);
          return false;
        },
      },
    });
    await expect(station.text(worker, 'BABY')).rejects.toThrow('look at its load');
  });

  it('that breaks gives its lock back, so that it can be sent again', async () => {
    const sessions = memorySessions();
    let breaks = true;
    const station = openStation({
      sessions: {
        ...sessions,
        async close(...closing) {
          if (breaks) throw new Error('broken on purpose');
          return sessions.close(...closing);
        },
      },
    });
    await expect(station.text(worker, 'BABY', 'the-same')).rejects.toThrow('broken on purpose');
    breaks = false;
    expect(await station.text(worker, 'BABY', 'the-same')).toMatch(/New baby/);
  });
});

describe('what is due', () => {
  it('is looked at when an alert was raised, and not for an examination that ended, whose next contact is days away', async () => {
    const station = openStation();
    await textAll(station, worker, ['BABY 1 0430 39 3100', '0', '0', '0', '36.8 44 132']);
    const ended = async (): Promise<number> => (await station.register.dump()).examinations?.length ?? 0;
    for (let texts = 0; texts < 20 && (await ended()) === 0; texts += 1) await station.text(worker, '0');
    expect([await ended(), station.woken]).toEqual([1, 0]);
    await raiseAlert(station);
    expect(station.woken).toBe(1);
  });
});

describe('while the register is down', () => {
  it('advice goes out, the worker is told to ring, and the nurse is told at once', async () => {
    const station = openStation();
    await station.text(worker, 'BABY 1 0430 39 3100');
    station.register.isDown = true;
    const reply = await station.text(worker, '1');
    expect(reply).toMatch(/REFER NOW/);
    expect(reply).toMatch(/Not recorded yet.*Ring the nurse/);
    expect(reply).toMatch(/Nurse told/);
    expect(station.sent).toEqual([{ to: nurse.phone, text: expect.stringMatching(/URGENT girl 5 h/) }]);
    expect(await station.register.counts()).toEqual({});
  });

  it('entries are kept beside the sessions, written when it is back, whoever texts next, and once', async () => {
    const station = openStation();
    await station.text(worker, 'BABY 1 0430 39 3100');
    station.register.isDown = true;
    await textAll(station, worker, ['1', '2', '0']);
    const kept = await station.sessions.kept(99);
    expect(kept.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['alert', 'text', 'due', 'referral']));
    await expect(station.writeKept()).rejects.toThrow('The register is down');
    expect(await station.sessions.kept(99)).toEqual(kept);
    station.register.isDown = false;
    expect(await station.writeKept()).toBe(kept.length);
    expect(await station.writeKept()).toBe(0);
    expect(await station.register.counts()).toMatchObject({ alerts: 1, babies: 1, referrals: 1, texts_out: 1 });
    expect(await station.text(worker, '0')).not.toMatch(/Not recorded/);
  });

  it('an urgent text that went out already does not go out again when the register is back', async () => {
    const station = openStation();
    await station.text(worker, 'BABY 1 0430 39 3100');
    station.register.isDown = true;
    await textAll(station, worker, ['1', '2']);
    station.register.isDown = false;
    await station.writeKept();
    expect(await station.register.rows('select state from texts_out')).toEqual([{ state: 'sent' }]);
    await station.textsOf(worker);
    expect(station.sent.filter(({ text }) => text.includes('URGENT'))).toHaveLength(1);
  });

  it('and the gateway away too, the worker is never told that a nurse knows; the nurse is told when both are back', async () => {
    const station = openStation();
    await station.text(worker, 'BABY 1 0430 39 3100');
    station.register.isDown = true;
    station.gatewayIsDown = true;
    const reply = await station.text(worker, '1');
    expect(reply).toMatch(/REFER NOW/);
    expect(reply).toMatch(/Ring the nurse NOW: \+254700555212/);
    expect(reply).not.toMatch(/Nurse told/);
    station.register.isDown = false;
    station.gatewayIsDown = false;
    await station.writeKept();
    expect(await station.textsOf(nurse)).toEqual([expect.stringMatching(/URGENT/)]);
  });

  it('and nothing can be kept either, the advice goes out, asks nothing, and the same message again makes it good', async () => {
    const sessions = memorySessions();
    let isFull = true;
    const station = openStation({
      sessions: {
        ...sessions,
        async keep(waiting) {
          if (isFull) throw new Error('The session store is full.');
          await sessions.keep(waiting);
        },
      },
    });
    await station.text(worker, 'BABY 1 0430 39 3100');
    station.register.isDown = true;
    const reply = await station.text(worker, '1', 'the-same');
    expect(reply).toMatch(/NOT RECORDED.*REFER NOW/s);
    expect(reply).not.toMatch(/\b2 /);
    station.register.isDown = false;
    isFull = false;
    expect(await station.text(worker, '1', 'the-same')).toMatch(/REFER NOW/);
    expect(await station.register.counts()).toMatchObject({ alerts: 1 });
  });

  it('what an older version left in a session is not lost, and is written once', async () => {
    const station = openStation();
    const opened = await station.sessions.open(worker.phone, 'before', morning);
    if (opened.kind !== 'held') throw new Error('The session is not held.');
    await station.sessions.close(
      opened.held,
      'before',
      JSON.stringify({ v: 1, lastMessageAt: morning, unsaved: leftByOlderVersion }),
      '',
      morning,
    );
    await station.text(worker, 'MENU');
    await station.text(worker, 'MENU');
    expect(await station.register.rows('select baby, code, urgency, version from examinations')).toEqual([
      { baby: 'b-1', code: '7FK', urgency: 'urgent', version: 'v0' },
    ]);
    expect(await station.register.alertOf('b-1')).toMatchObject({ code: '7FK', nurse: nurse.phone });
    expect(await station.register.rows('select state, gateway_id from texts_out')).toEqual([{ state: 'sent', gateway_id: 'SM1' }]);
    expect(station.faults).toEqual([]);
  });
});

const ofOlderVersion = { worker: worker.phone, facility: 'mwangaza', code: '7FK', at: morning };
const leftByOlderVersion = [
  {
    kind: 'examination',
    key: 'examination:b-1:0',
    ...ofOlderVersion,
    body: { case: {}, interpretation: { urgency: 'urgent' }, version: 'v0' },
  },
  { kind: 'alert', key: 'alert:b-1', ...ofOlderVersion, nurse: nurse.phone, body: {} },
  { kind: 'text', key: 'nurse:alert:b-1', to: nurse.phone, text: 'URGENT', urgent: true, at: morning, gatewayId: 'SM1' },
];

describe('99 in a call, where a number is asked', () => {
  it('turns the page while the screen says that there is a next one, and is a number where there is none', async () => {
    const station = openStation();
    let keyed = '';
    const key = async (text: string): Promise<string> => {
      keyed = keyed === '' ? text : `${keyed}*${text}`;
      return (await station.key(worker, 'call-1', keyed)).text;
    };
    await station.key(worker, 'call-1', '');
    for (const text of ['1 0430 39 3100', '0', '0', '0']) await key(text);
    expect(await key('36.2 66 132')).toMatch(/99 next$/);
    expect(await key('99')).toMatch(/66 is fast.*Second count/s);
    expect(await key('99')).toMatch(/breaths 66, 99/);
  });
});

describe('a nurse who is also a worker', () => {
  it('takes an alert by its code, and examines a baby by all else', async () => {
    const station = openStation();
    const code = await raiseAlert(station);
    expect(await station.text(nurseWorker, 'BABY')).toMatch(/New baby/);
    expect(await station.text(nurseWorker, code)).toMatch(`${code} is yours`);
    expect(await station.text(nurseWorker, '1 0430 39 3100')).toMatch(/DANGER NOW/);
  });

  it.each(['5hr', '5hr ago 39 3100'])('sends a time that has the form of a code (%s), and it is a time', async (time) => {
    const station = openStation();
    await textAll(station, nurseWorker, ['BABY', '1']);
    expect(await station.text(nurseWorker, time)).not.toMatch(/No open alert/);
  });
});

/** Sessions that are busy the first few times. */
function busyFor(times: number): Sessions {
  const sessions = memorySessions();
  let left = times;
  return {
    ...sessions,
    async open(phone, id, now) {
      left -= 1;
      return left >= 0 ? { kind: 'busy' } : sessions.open(phone, id, now);
    },
  };
}
