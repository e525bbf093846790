// An alert that nobody takes: what goes out at each step, as a table from -> event -> to, that a step is written once whoever
// writes it, and that an alert which is neither taken nor closed always has work pending that rings somebody.
// Times: flows/protocol/follow-up.yaml.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { takenLimit } from '../../../src/conversation/alerts/alert-asks.ts';
import { passOn } from '../../../src/conversation/alerts/pass-alert.ts';
import { answerWork } from '../../../src/conversation/due-work.ts';
import type { AlertRecord, DueEntry, DueWork, Entry, TextEntry, WorkAnswer } from '../../../src/conversation/records.ts';
import { at, coordinator, minute, morning, nurse, parts, receiver, roster, worker } from '../ward.ts';

const { alertTakenWithinMinutes: limit, alertRoundPauseMinutes: pause } = parts.published.followUp;
const everybody = [nurse, receiver, coordinator].map(({ phone }) => phone);

const alert: AlertRecord = {
  ...{ key: 'alert:b1', baby: 'b1', code: '7FK', worker: worker.phone, facility: 'mwangaza', at: morning },
  ...{ nurse: nurse.phone, asked: [nurse.phone], askedNow: [nurse.phone], state: 'open', takenBy: null },
  body: {
    case: { ageHours: 5, sex: 'girl', findings: { convulsion: 'in-this-illness' } },
    interpretation: {
      ...{ urgency: 'urgent', missing: [], advice: [], computed: {} },
      classifications: [{ id: 'convulsion', urgency: 'urgent', because: [{ finding: 'convulsion', value: 'in-this-illness' }], rows: [] }],
    },
  },
};
const askedSoFar = (...asked: readonly string[]): AlertRecord => ({
  ...alert,
  asked,
  askedNow: asked.slice(-1),
  nurse: asked.at(-1) ?? '',
});

const workOf = (one: AlertRecord | null, step: number, times = 0): DueWork => ({
  ...{ key: `due:alert:b1:${step}`, work: 'alert-not-taken', dueAt: morning, times, body: { step }, baby: null, referral: null },
  alert: one,
});
const now = morning + 5 * minute;
const answer = (one: AlertRecord | null, step: number, times = 0): WorkAnswer => answerWork(workOf(one, step, times), at(now));
const textsIn = (entries: readonly Entry[]): TextEntry[] => entries.filter((entry) => entry.kind === 'text');
const dueIn = (entries: readonly Entry[]): DueEntry[] => entries.filter((entry) => entry.kind === 'due');

describe('an alert that is not taken in its time', () => {
  it('goes to the next with all that is known, who did not answer, and a limit of its own; the worker hears whom to ring', () => {
    const { entries, next } = answer(alert, 0);
    expect(next).toEqual({ kind: 'done' });
    const [toNext, toWorker] = textsIn(entries);
    expect(toNext).toMatchObject({ key: 'nurse:alert:b1:1', to: receiver.phone, urgent: true });
    expect(toNext?.text).toMatch(/^7FK URGENT girl 5 h, Mwangaza HC 0930: fit.* No answer: Nurse Kamau\. Worker \+254700555201\./);
    expect(toWorker).toMatchObject({ key: 'worker:alert:b1:1', to: worker.phone, urgent: true });
    expect(toWorker?.text).toBe(`7FK: no answer from ${nurse.name}. ${receiver.name} is asked now. Ring ${receiver.phone}.`);
    expect(entries).toContainEqual(expect.objectContaining({ kind: 'asked', key: 'asked:alert:b1:1', step: 1, nurse: receiver.phone }));
    expect(dueIn(entries)).toEqual([expect.objectContaining({ key: 'due:alert:b1:1', dueAt: now + limit * minute, body: { step: 1 } })]);
  });

  it('goes to the coordinator after the nurses, who is told who was tried', () => {
    const [toNext] = textsIn(answer(askedSoFar(nurse.phone, receiver.phone), 1).entries);
    expect(toNext?.to).toBe(coordinator.phone);
    expect(toNext?.text).toContain(`No answer: ${nurse.name}, ${receiver.name}.`);
  });

  it('waits when all were asked: the worker is told not to, and whom to keep ringing', () => {
    const { entries, next } = answer(askedSoFar(...everybody), 2);
    expect(next).toEqual({ kind: 'again', at: now + pause * minute });
    expect(textsIn(entries).map(({ to }) => to)).toEqual([worker.phone]);
    expect(textsIn(entries)[0]?.text).toMatch(new RegExp(`Do not wait.*Keep ringing ${nurse.name} \\${nurse.phone}.*${pause} min`));
  });

  it('begins again after the pause, and again tells the worker', () => {
    const { entries, next } = answer(askedSoFar(...everybody), 2, 1);
    expect(next).toEqual({ kind: 'done' });
    expect(textsIn(entries).map(({ key, to }) => [key, to])).toEqual([
      ['nurse:alert:b1:3', nurse.phone],
      ['worker:alert:b1:3', worker.phone],
    ]);
  });

  it.each([
    ['is taken', { ...alert, state: 'taken', takenBy: receiver.phone }, 0],
    ['is closed', { ...alert, state: 'closed', takenBy: nurse.phone }, 0],
    ['joined an older one', null, 0],
    ['went to the next by other means', askedSoFar(nurse.phone, receiver.phone), 0],
  ] as const)('is left alone when it %s meanwhile', (_what, one, step) => {
    expect(answer(one, step)).toEqual({ entries: [], next: { kind: 'done' } });
  });

  it('still rings when its facility has left the roster', () => {
    const lost = { ...alert, facility: 'gone' };
    expect(answer(lost, 0).next.kind).toBe('again');
    expect(textsIn(answer(lost, 0, 1).entries).map(({ to }) => to)).toEqual([nurse.phone, worker.phone]);
  });

  it('still rings when what it is about cannot be read', () => {
    for (const body of [null, {}, 'x', { case: null }]) {
      const [toNext] = textsIn(answer({ ...alert, body }, 0).entries);
      expect(toNext?.text).toMatch(/^7FK URGENT baby, Mwangaza HC 0930: \?/);
    }
  });

  it('that was corrected is said to be, and can be closed', () => {
    const eased = { ...alert, body: { ...(alert.body as object), interpretation: { urgency: 'routine', classifications: [] } } };
    expect(textsIn(answer(eased, 0).entries)[0]?.text).toMatch(/corrected by the worker: not urgent now.*7FK DONE closes it/);
  });
});

it('a time limit and a nurse who passes at the same instant write one step, to one person', () => {
  const byTime = answer(alert, 0).entries;
  const passed = passOn(alert, nurse.phone, now, parts);
  const byPass = passed.kind === 'passed' ? passed.entries : [];
  expect(byPass.map(({ key }) => key)).toEqual(byTime.map(({ key }) => key));
  expect(textsIn(byPass)[0]).toEqual(textsIn(byTime)[0]);
});

describe('a nurse whom nobody can follow', () => {
  const alone: AlertRecord = { ...alert, facility: 'bonde' };

  it('stays asked when she passes, and the worker is told not to wait for her', () => {
    const passed = passOn(alone, nurse.phone, now, parts);
    expect(passed.kind).toBe('nobody-else');
    const texts = passed.kind === 'nobody-else' ? textsIn(passed.entries) : [];
    expect(texts.map(({ to, text }) => [to, text])).toEqual([[worker.phone, expect.stringMatching(/Do not wait/)]]);
  });

  it('is asked again after she had it', () => {
    const passed = passOn({ ...alone, state: 'taken', takenBy: nurse.phone }, nurse.phone, now, parts);
    expect(passed.kind === 'nobody-else' && dueIn(passed.entries)).toEqual([expect.objectContaining({ key: 'due:alert:b1:1' })]);
  });
});

describe('whatever happens', () => {
  interface World {
    readonly alert: AlertRecord;
    readonly work: ReadonlyMap<string, { readonly dueAt: number; readonly times: number; readonly body: unknown }>;
    readonly now: number;
    readonly texts: ReadonlyMap<string, TextEntry>;
  }

  const begun: World = {
    alert,
    work: new Map([['due:alert:b1:0', { dueAt: takenLimit(alert, 0, morning, parts).dueAt, times: 0, body: { step: 0 } }]]),
    now: morning,
    texts: new Map(),
  };

  /** As the register writes entries: each key once, and whoever was asked last is asked. */
  function write(world: World, entries: readonly Entry[]): World {
    const asked = [...world.alert.asked];
    const work = new Map(world.work);
    const texts = new Map(world.texts);
    for (const entry of entries) {
      if (entry.kind === 'asked' && entry.step === asked.length) asked.push(entry.nurse);
      if (entry.kind === 'due' && !work.has(entry.key)) work.set(entry.key, { dueAt: entry.dueAt, times: 0, body: entry.body });
      if (entry.kind === 'text' && !texts.has(entry.key)) texts.set(entry.key, entry);
    }
    return { ...world, alert: { ...world.alert, asked, nurse: asked.at(-1) ?? '' }, work, texts };
  }

  /** The work that is due next is answered when it is due. */
  function goOn(world: World): World {
    const [next] = [...world.work].sort(([, a], [, b]) => a.dueAt - b.dueAt);
    if (next === undefined) return world;
    const [key, { dueAt, times, body }] = next;
    const moment = Math.max(world.now, dueAt);
    const work = { ...workOf(world.alert, 0, times), key, body };
    const { entries, next: then } = answerWork(work, at(moment));
    const after = write({ ...world, now: moment }, entries);
    const rest = new Map(after.work);
    rest.delete(key);
    if (then.kind === 'again') rest.set(key, { dueAt: then.at, times: times + 1, body });
    return { ...after, work: rest };
  }

  function act(world: World, who: string, what: 'take' | 'pass' | 'go-on'): World {
    if (what === 'go-on') return goOn(world);
    const { alert: one } = world;
    if (one.state === 'taken' && one.takenBy !== who) return world;
    if (what === 'take') return { ...world, alert: { ...one, state: 'taken', takenBy: who } };
    const passed = passOn(one, who, world.now, parts);
    if (passed.kind === 'asked-already') return world;
    return write({ ...world, alert: { ...one, state: 'open', takenBy: null } }, passed.entries);
  }

  const events = fc.array(fc.tuple(fc.constantFrom(...everybody), fc.constantFrom('take', 'pass', 'go-on', 'go-on')), { maxLength: 25 });
  const facilities = fc.constantFrom('mwangaza', 'bonde', 'kilima', 'gone');

  it('an alert that is neither taken nor closed has one piece of work pending that will ring somebody, within a pause', () => {
    fc.assert(
      fc.property(events, facilities, (all, facility) => {
        const world = all.reduce<World>((before, [who, what]) => act(before, who, what), { ...begun, alert: { ...alert, facility } });
        if (world.alert.state === 'taken') return;
        const live = [...world.work.values()].filter(({ body }) => (body as { step: number }).step === world.alert.asked.length - 1);
        expect(live).toHaveLength(1);
        const asked = world.alert.asked.length;
        let later = world;
        for (let tries = 0; tries < world.work.size + 2 && later.alert.asked.length === asked; tries += 1) later = goOn(later);
        expect(later.alert.asked.length).toBe(asked + 1);
        expect(later.texts.get(`nurse:alert:b1:${asked}`)?.to).toBe(later.alert.nurse);
        expect(later.now - world.now).toBeLessThanOrEqual((limit + pause) * minute);
      }),
    );
  });

  it('the worker hears of each step, and nobody is texted twice for one', () => {
    fc.assert(
      fc.property(events, (all) => {
        const world = all.reduce<World>((before, [who, what]) => act(before, who, what), begun);
        const told = [...world.texts.values()].filter(({ to }) => to === worker.phone).map(({ key }) => key);
        for (let step = 1; step < world.alert.asked.length; step += 1) expect(told).toContainEqual(`worker:alert:b1:${step}`);
      }),
    );
  });
});

it('the ward has the people that this is about', () => {
  expect(roster.onCall('mwangaza', morning).map(({ phone }) => phone)).toEqual([nurse.phone, receiver.phone]);
  expect(roster.coordinators('mwangaza').map(({ phone }) => phone)).toEqual([coordinator.phone]);
});
