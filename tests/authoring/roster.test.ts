import { describe, expect, it } from 'vitest';
import { sortDiagnostics } from '../../src/authoring/diagnostic.ts';
import { codesOf } from './marked-yaml.ts';
import { read, sound, spoilt, type Texts } from './roster-tables.ts';

describe('a roster', () => {
  it('without a fault is read whole', () => {
    const { data, faults } = read(sound);
    expect(faults).toEqual([]);
    expect(data.facilities[0]).toEqual({
      id: 'marula',
      name: 'Marula HC',
      zone: 'Africa/Nairobi',
      nurse: '+254700555012',
      above: 'baobab',
      refersTo: 'baobab',
      travelMinutes: 45,
    });
    expect(data.facilities[1]).toMatchObject({ above: null, refersTo: null, travelMinutes: null });
    expect(data.people[1]).toEqual({
      phone: '+254700555012',
      name: 'Wanjiru',
      roles: ['nurse', 'worker'],
      facility: 'marula',
      language: 'en',
      mayInject: false,
    });
    expect(data.people[0]?.mayInject).toBe(true);
    expect(data.shifts[0]).toEqual({
      facility: 'marula',
      days: { kind: 'weekly', weekdays: [1, 2, 3, 4, 5] },
      fromMinute: 480,
      toMinute: 1020,
      phone: '+254700555012',
      order: 1,
    });
    expect(data.leave).toEqual([{ phone: '+254700555012', from: '2026-12-24', until: '2026-12-26', instead: '+254700555021' }]);
  });

  it.each<[what: string, change: (text: string) => string]>([
    ['a byte-order mark', (text) => `\uFEFF${text}`],
    ['Windows line endings', (text) => text.replaceAll('\n', '\r\n')],
    ['semicolons, as spreadsheets write where the comma is the decimal sign', (text) => text.replaceAll(',', ';')],
    ['tabs', (text) => text.replaceAll(',', '\t')],
    ['a line that says the delimiter', (text) => `sep=;\n${text.replaceAll(',', ';')}`],
    ['every cell in quotes', (text) => text.replace(/[^,\n]+/g, '"$&"')],
    ['spaces around cells', (text) => text.replaceAll(',', ' , ')],
    ['empty rows and columns at the end', (text) => `${text.replaceAll('\n', ',,\n')},,,,\n\n`],
    ['column names in capitals', (text) => text.replace(/^.*/, (header) => header.toUpperCase())],
    ['seconds behind the times', (text) => text.replace(/\b(\d\d:\d\d)\b/g, '$1:00')],
  ])('with %s is the same', (_what, change) => {
    const changed = Object.fromEntries(Object.entries(sound).map(([table, text]) => [table, change(text)])) as unknown as Texts;
    expect(read(changed)).toEqual(read(sound));
  });

  it('has its columns in any order, and leaves out those that may be', () => {
    const people = 'language,facility,roles,name,phone\nen,marula,worker,Akinyi,+254700555101\n';
    const { data } = read({ ...sound, people });
    expect(data.people).toEqual([
      { phone: '+254700555101', name: 'Akinyi', roles: ['worker'], facility: 'marula', language: 'en', mayInject: false },
    ]);
  });
});

describe('a roster with a fault', () => {
  it('names every bad line of every table at once', () => {
    const { faults } = read({
      facilities: sound.facilities.replace('Africa/Nairobi', 'Mars/Olympus'),
      people: sound.people.replace('+254700555101', '254700555101').replace('Rose', '"Rose'),
      rota: sound.rota.replace('mon-fri', 'fir').replace('07:00,19:00', '7,19'),
      leave: sound.leave.replace('2026-12-24', 'Christmas'),
    });
    expect(sortDiagnostics(faults).map(({ file, range, code }) => `${file}:${range.start.line} ${code}`)).toEqual([
      'facilities.csv:2 roster/unknown-zone',
      'leave.csv:2 roster/not-a-date',
      'people.csv:2 roster/plus-lost',
      'people.csv:5 roster/quote-not-closed',
      'rota.csv:2 roster/not-days',
      'rota.csv:3 roster/not-a-time',
      'rota.csv:3 roster/not-a-time',
    ]);
  });

  it.each([
    ['without its plus', '+254700555021,Njeri', '254700555021,Njeri', ['roster/plus-lost']],
    ['with a quote that is not closed', 'Njeri,', '"Njeri,', ['roster/quote-not-closed']],
    ['without a name', 'Njeri,', ',', ['roster/cell-empty']],
  ])('in the line of a nurse, %s, is blamed on no shift of hers', (_what, from, to, codes) => {
    expect(codesOf(read(spoilt('people', from, `«»${to}`).texts).faults)).toEqual(codes);
  });

  it('that took the digits of a number offers nobody else in her place', () => {
    const { faults } = read(spoilt('people', '+254700555021', '«2.547E+11»').texts);
    expect(codesOf(faults)).toEqual(['roster/digits-lost', ...Array(3).fill('roster/unknown-person')]);
    expect(faults.slice(1).map(({ fix }) => fix.startsWith('Mend the numbers'))).toEqual([true, true, true]);
  });

  it.each(['facilities', 'people'] as const)('in the columns of %s is blamed on no other table', (table) => {
    expect(codesOf(read({ ...sound, [table]: 'something,else\n1,2\n' }).faults).every((code) => /column/.test(code))).toBe(true);
    expect(codesOf(read({ ...sound, [table]: '' }).faults)).toEqual(['roster/no-header']);
  });

  it.each(['facilities', 'people'] as const)('of no %s at all is told so', (table) => {
    expect(codesOf(read({ ...sound, [table]: sound[table].split('\n')[0] ?? '' }).faults)).toEqual(['roster/no-rows']);
  });
});

describe('a roster that may leave somebody alone', () => {
  const warned = (texts: Texts) => read(texts).faults.map(({ severity, code, what }) => `${severity} ${code} ${what}`);
  const without = (table: keyof Texts, line: RegExp): Texts => ({ ...sound, [table]: sound[table].replace(line, '') });

  it('warns of the hours of the week in which nobody is on call, there or above', () => {
    expect(warned(without('rota', /^baobab,daily,19.*\n/m))).toEqual([
      'warning roster/nobody-on-call Nobody is on call for "marula": daily 19:00-07:00.',
      'warning roster/nobody-on-call Nobody is on call for "baobab": daily 19:00-07:00.',
    ]);
    expect(warned(without('rota', /^baobab.*\n/gm))[0]).toBe(
      'warning roster/nobody-on-call Nobody is on call for "marula": mon-thu 17:00-08:00, fri 17:00 to mon 08:00.',
    );
    expect(warned({ ...sound, rota: 'facility,days,from,to,phone,order\n' })[1]).toBe(
      'warning roster/nobody-on-call Nobody is on call for "baobab": at no hour of the week.',
    );
  });

  it('warns of the days that leave opens, and not when somebody stands in', () => {
    const alone = { ...sound, leave: 'phone,from,until\n+254700555021,2026-12-25,2026-12-26\n' };
    expect(warned(alone)).toEqual([
      'warning roster/leave-leaves-nobody With +254700555021 on leave nobody is on call for "baobab": 2026-12-25 07:00 to 2026-12-27 07:00.',
    ]);
    const people = sound.people.replace('Rose,coordinator', 'Rose,coordinator nurse');
    expect(warned({ ...alone, people, leave: 'phone,from,until,instead\n+254700555021,2026-12-25,2026-12-26,+254700555030\n' })).toEqual(
      [],
    );
  });

  it('warns of a number behind which there is no nurse, and of alerts that no coordinator hears of', () => {
    expect(warned({ ...sound, facilities: sound.facilities.replace('+254700555012', '+254700555030') })).toEqual([
      'warning roster/nurse-not-listed The phone of "marula", +254700555030, is not that of a nurse in people.csv.',
    ]);
    expect(warned({ ...sound, people: sound.people.replace('coordinator', 'worker') }).map((one) => one.slice(0, 29))).toEqual([
      'warning roster/no-coordinator',
      'warning roster/no-coordinator',
    ]);
  });
});
