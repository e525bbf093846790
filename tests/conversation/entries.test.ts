// What an alert becomes in the register: raised with the text to whoever is asked first and her time limit, or joined to the one
// that is open with a text to whoever has it. The same fact gives the same entries.

import { describe, expect, it } from 'vitest';
import { chainOf } from '../../src/conversation/alerts/alert-chain.ts';
import { entriesOf, mayJoinAlert } from '../../src/conversation/entries.ts';
import type { AlertRecord, Entry } from '../../src/conversation/records.ts';
import type { Fact } from '../../src/dialog/facts.ts';
import {
  alerted,
  caseOf,
  colleague,
  coordinator,
  examined,
  minute,
  morning,
  nurse,
  parts,
  receiver,
  roster,
  urgentCase,
  worker,
} from './ward.ts';

const first = alerted(urgentCase, { news: ['convulsion'] });
const later = alerted(caseOf({ convulsion: 'in-this-illness', temperature: [35] }), {
  ...{ key: 'alert:b1:2', isUpdate: true, news: ['dangerously-low-temperature'], at: morning + minute },
});
const eased = alerted(caseOf({}), { key: 'alert:b1:2', isUpdate: true, news: [] });
const openAlert: AlertRecord = {
  ...{ key: 'alert:b1', baby: 'b1', code: '7FK', worker: worker.phone, facility: 'mwangaza', at: morning, body: null },
  ...{ nurse: receiver.phone, asked: [nurse.phone, receiver.phone], askedNow: [receiver.phone], state: 'open', takenBy: null },
};

const entries = (fact: Fact, open: AlertRecord | null = null): Entry[] => entriesOf([fact], { ...parts, openAlert: open });
const keysOf = (all: readonly Entry[]): string[] => all.map(({ kind, key }) => `${kind} ${key}`).sort();
const textIn = (all: readonly Entry[]) => all.find((entry) => entry.kind === 'text');

describe('the first alert of a baby', () => {
  it('is raised, tells whoever is asked first, and has her time limit and a referral at once', () => {
    const all = entries(first);
    expect(keysOf(all)).toEqual([
      'alert alert:b1',
      'due due:alert:b1:0',
      'due due:referral:alert:b1:left',
      'referral referral:alert:b1',
      'text nurse:alert:b1:0',
    ]);
    expect(all).toContainEqual(expect.objectContaining({ kind: 'alert', nurse: nurse.phone, baby: 'b1' }));
    const minutes = parts.published.followUp.alertTakenWithinMinutes;
    expect(all).toContainEqual(expect.objectContaining({ work: 'alert-not-taken', dueAt: morning + minutes * minute, alert: 'alert:b1' }));
    expect(textIn(all)).toMatchObject({ to: nurse.phone, urgent: true, text: expect.stringMatching(/^7FK URGENT girl 5 h/) });
  });

  it('gives the same entries again', () => {
    expect(entries(first)).toEqual(entries(first));
  });

  it('needs no look at the register before, and any later one does', () => {
    const contact = alerted(urgentCase, { key: 'alert:another-examination' });
    expect([first, later, eased, contact, examined(urgentCase)].map(mayJoinAlert)).toEqual([false, true, true, true, false]);
  });

  it('is kept away from the worker who raises it, when there is anybody else to ask', () => {
    const fromNurse = { ...first, worker: nurse.phone };
    expect(textIn(entries(fromNurse))).toMatchObject({ to: receiver.phone });
    expect(textIn(entries({ ...fromNurse, facility: 'bonde' }))).toMatchObject({ to: nurse.phone });
  });
});

describe('what is found later', () => {
  it.each([
    ['goes to whoever was asked last', openAlert, receiver.phone],
    ['goes to whoever has taken it', { ...openAlert, state: 'taken', takenBy: coordinator.phone }, coordinator.phone],
  ] as const)('%s', (_claim, open, to) => {
    const all = entries(later, open);
    expect(textIn(all)).toMatchObject({ to, text: expect.stringMatching(/^7FK ALSO girl 5 h/) });
    expect(all).toContainEqual(expect.objectContaining({ kind: 'alert', key: 'alert:b1:2', nurse: to }));
  });

  it('has a time limit of its own, for when the alert that it joins is closed in the same instant', () => {
    expect(keysOf(entries(later, openAlert))).toContain('due due:alert:b1:2:0');
  });

  it('is a new alert with all that is wrong when none is open, or when the register could not be asked', () => {
    const all = entries(later);
    expect(textIn(all)).toMatchObject({ to: nurse.phone, text: expect.stringMatching(/^7FK URGENT girl 5 h.*T 35.*fit/) });
    expect(keysOf(all)).toEqual(expect.arrayContaining(['alert alert:b1:2', 'due due:alert:b1:2:0']));
  });
});

describe('a correction', () => {
  it('is told to whoever has the alert, which stands corrected in the register', () => {
    const all = entries(eased, openAlert);
    expect(textIn(all)).toMatchObject({ to: receiver.phone, text: expect.stringContaining('corrected by the worker') });
    expect(keysOf(all)).toContain('alert alert:b1:2');
  });

  it('raises nothing when no alert is known', () => {
    expect(keysOf(entries(eased))).toEqual(['text nurse:alert:b1:2:0']);
  });
});

describe('whom an alert can go to', () => {
  const chain = (facility: string, of = worker.phone) => chainOf({ facility, worker: of }, morning, roster);

  it.each([
    ['the nurses on call, the coordinators after them', chain('mwangaza'), [nurse.phone, receiver.phone, coordinator.phone]],
    ['the number to ring where nobody is on call', chain('kilima'), [roster.facility('kilima')?.nurse]],
    ['everybody but the worker who raised it', chain('mwangaza', nurse.phone), [receiver.phone, coordinator.phone]],
    ['a worker herself when there is nobody else', chain('bonde', nurse.phone), [nurse.phone]],
    ['nobody of a facility that is not on the roster', chain('gone', colleague.phone), []],
  ])('is %s', (_who, found, wanted) => {
    expect(found).toEqual(wanted);
  });
});
