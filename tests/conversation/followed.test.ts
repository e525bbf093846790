// What the register holds of a baby as the dialog knows it, and a register that is away.

import { describe, expect, it } from 'vitest';
import type { LookUpParts } from '../../src/conversation/followed.ts';
import { lookUpBabies } from '../../src/conversation/followed.ts';
import type { BabyRecord, DueRecord, ReferralRecord } from '../../src/conversation/records.ts';
import { beginExamination } from '../../src/dialog/examination.ts';
import { demoRoster, published } from '../support/desk.ts';

const { followUp } = await published();
const person = demoRoster.find('+254700555101')!;
const now = Date.parse('2026-11-25T09:30:00+03:00');
const minute = 60_000;
const day = 1440 * minute;
const examination = beginExamination('first-day-exam', person.phone, now - day, 'm1');
const { id, code } = examination;

const record: BabyRecord = {
  ...{ id, code, facility: 'marula', worker: person.phone, status: 'followed' },
  ...{ sex: 'girl', bornAt: now - day, gestationDays: 273, birthWeightGrams: 3100, card: null },
  last: { key: 'examination:1', at: now - day, urgency: 'treat', body: { examination, case: {}, interpretation: {} } },
  due: [],
  referral: null,
};
const due = (work: DueRecord['work'], dueAt: number, body: unknown, state: DueRecord['state'] = 'pending'): DueRecord => ({
  ...{ key: `due:${work}`, work, dueAt, state, body },
});
const referral: ReferralRecord = {
  ...{ key: 'r1', baby: id, code, worker: person.phone, facility: 'marula', receiving: 'baobab', urgency: 'urgent' },
  ...{ at: now, state: 'advised', leftAt: null, arrivedAt: null, outcome: null, reason: null },
  body: { case: { sex: 'boy', ageHours: 5 }, interpretation: {} },
};

const faults: string[] = [];
const asked: unknown[] = [];
function partsOf(records: readonly BabyRecord[], pause: () => Promise<void> = () => new Promise(() => {})): LookUpParts {
  return {
    register: {
      findBabies: async (...of) => {
        asked.push(of);
        return [...records];
      },
      listBabies: async (...of) => {
        asked.push(of);
        return [...records];
      },
    },
    roster: demoRoster,
    followUp,
    pause,
    log: { error: (_, what) => void faults.push(what) },
  };
}
const found = async (one: BabyRecord) => {
  const answer = await lookUpBabies({ kind: 'code', code, rest: '' }, person, now, partsOf([one]));
  if (answer.kind === 'away') throw new Error('The register is not away here.');
  return answer.babies[0]!;
};

describe('a baby that is looked up', () => {
  it('brings its last examination, so that a second look can go on from it', async () => {
    expect(await found(record)).toMatchObject({ id, code, sex: 'girl', last: examination });
  });

  it.each([[null], [{}], [{ examination: null }], [{ examination: { id: 'x' } }], ['text'], [{ answers: [] }]])(
    'has none that could not be read: %j',
    async (body) => {
      expect((await found({ ...record, last: { ...record.last!, body } })).last).toBeNull();
    },
  );

  it('is due when it was ordered, however often the worker was reminded since', async () => {
    const works = [
      due('recheck', now + 60 * minute, { what: [], isNear: true, from: now - 5 * minute }),
      due('contact', now + day, { contact: '2', from: now - 60 * minute, to: now + day }),
      due('refusal-visit', now + day, { since: now - day }),
      due('referral-left', now, {}),
      due('alert-not-taken', now, {}),
    ];
    expect((await found({ ...record, due: works })).due).toEqual([
      { work: 'contact', dueAt: now - 60 * minute, lateAt: now + day, isMissed: false },
      { work: 'recheck', dueAt: now - 5 * minute, lateAt: now - 5 * minute, isMissed: false },
      { work: 'refusal-visit', dueAt: now, lateAt: now + day, isMissed: false },
    ]);
  });

  it('names the place that it was sent to, and forgets a referral that is closed', async () => {
    expect((await found({ ...record, referral })).referral).toMatchObject({ key: 'r1', place: 'Baobab District Hospital' });
    expect((await found({ ...record, referral: { ...referral, receiving: 'nowhere' } })).referral?.place).toBeNull();
    expect((await found({ ...record, referral: { ...referral, state: 'closed' } })).referral).toBeNull();
  });

  it('is known by its referral while only an alert of it is in the register', async () => {
    const alerted = { ...record, sex: null, bornAt: null, last: null, referral };
    expect(await found(alerted)).toMatchObject({ sex: 'boy', bornAt: now - 300 * minute });
  });

  it('is looked for by the code that its id gives, in her own facility and among those that she follows', async () => {
    asked.length = 0;
    const other = { ...record, id: 'another' };
    const answer = await lookUpBabies({ kind: 'baby', id }, person, now, partsOf([other, record]));
    expect(asked).toEqual([['marula', person.phone, code]]);
    expect(answer).toMatchObject({ babies: [{ id }] });
  });
});

describe('a register', () => {
  it('that fails is away', async () => {
    const parts = partsOf([]);
    const failing = { ...parts, register: { ...parts.register, listBabies: () => Promise.reject(new Error('gone')) } };
    expect(await lookUpBabies({ kind: 'list' }, person, now, failing)).toEqual({ kind: 'away' });
    expect(faults.at(-1)).toContain('away');
  });

  it('that hangs is away once patience is over', async () => {
    const parts = partsOf([], () => Promise.resolve());
    const hanging = { ...parts, register: { ...parts.register, listBabies: () => new Promise<never>(() => {}) } };
    expect(await lookUpBabies({ kind: 'list' }, person, now, hanging)).toEqual({ kind: 'away' });
  });
});
