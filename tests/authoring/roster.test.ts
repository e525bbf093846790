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

type Pair = readonly [code: string, table: keyof Texts, from: string, to: string, fix?: string];

const errors: readonly Pair[] = [
  ['roster/plus-lost', 'people', '+254700555101', '«254700555101»', 'Write "+254700555101".'],
  ['roster/plus-lost', 'people', '+254700555101', '«2.54700555101E+11»', 'Write "+254700555101".'],
  ['roster/plus-lost', 'people', '+254700555101', '«254700555101.0»', 'Write "+254700555101".'],
  ['roster/digits-lost', 'people', '+254700555101', '«2.547E+11»', 'type this number anew'],
  ['roster/digits-lost', 'people', '+254700555101', '«"2,547E+11"»', 'type this number anew'],
  ['roster/not-a-number', 'people', '+254700555101', '«0700555101»', 'such as +254700555101'],
  ['roster/not-a-number', 'people', '+254700555101', '«+254 700 555 101»', 'Write "+254700555101".'],
  ['roster/not-a-number', 'people', '+254700555101', '«00254700555101»', 'Write "+254700555101".'],
  ['roster/not-a-number', 'people', '+254700555101', '«+2547005551»', 'such as +254700555101'],
  ['roster/number-twice', 'people', '+254700555030', '«+254700555101»'],
  ['roster/unknown-facility', 'people', 'worker,marula', 'worker,«marulla»', 'Write "marula".'],
  ['roster/unknown-facility', 'facilities', '5012,baobab', '5012,«baobap»', 'Write "baobab".'],
  ['roster/unknown-facility', 'facilities', 'baobab,45', '«boabab»,45', 'Write "baobab".'],
  ['roster/unknown-facility', 'rota', 'marula', '«marul»', 'Write "marula".'],
  ['roster/facility-twice', 'facilities', '\nbaobab,', '\n«marula»,Other,Africa/Nairobi,+254700555012,,,\nbaobab,'],
  ['roster/itself', 'facilities', '5012,baobab', '5012,«marula»'],
  [
    'roster/loop-above',
    'facilities',
    '5012,baobab,baobab,45\nbaobab,Baobab Hospital,Africa/Nairobi,+254700555021,',
    '5012,«baobab»,baobab,45\nbaobab,Baobab Hospital,Africa/Nairobi,+254700555021,marula',
  ],
  ['roster/unknown-zone', 'facilities', 'Africa/Nairobi', '«Africa/Narobi»', 'Write "Africa/Nairobi".'],
  ['roster/unknown-zone', 'facilities', 'Africa/Nairobi', '«+03:00»'],
  ['roster/not-minutes', 'facilities', '45', '«an hour»'],
  ['roster/not-an-id', 'facilities', '\nbaobab,', '\n«Acacia HC»,Acacia HC,Africa/Nairobi,+254700555012,,,\nbaobab,'],
  ['roster/not-a-name', 'people', 'Akinyi', '«"Akinyi; Odera"»'],
  ['roster/unknown-word', 'people', 'nurse,baobab', '«nurs»,baobab', 'Write "nurse".'],
  ['roster/unknown-word', 'people', 'en,yes', 'en,«yess»', 'Write "yes".'],
  ['roster/not-a-language', 'people', 'en,yes', '«en_GB!»,yes'],
  ['roster/not-days', 'rota', 'mon-fri', '«mon-frday»', 'Write "friday".'],
  ['roster/not-days', 'rota', 'mon-fri', '«25/12/2026»', 'Write 2026-12-25'],
  ['roster/not-days', 'rota', 'mon-fri', '«2026-12-26..2026-12-24»'],
  ['roster/not-a-time', 'rota', '08:00', '«8 am»'],
  ['roster/not-a-time', 'rota', '17:00', '«24:01»'],
  ['roster/not-an-order', 'rota', ',1\nbaobab', ',«first»\nbaobab'],
  ['roster/unknown-person', 'rota', '+254700555012', '«+254700555013»', 'Write "+254700555012" if you mean Wanjiru'],
  ['roster/not-a-nurse', 'rota', '+254700555012', '«+254700555101»'],
  ['roster/not-a-nurse', 'leave', '+254700555021', '«+254700555030»'],
  ['roster/overlap', 'rota', '19:00,07:00,+254700555021,1', '18:30,07:00,+254700555021,«1»'],
  ['roster/overlap', 'rota', '19:00,07:00,+254700555021,1', '19:00,07:01,+254700555021,«1»'],
  ['roster/overlap', 'rota', '5012,1\nbaobab', '5012,1\nmarula,fri-sun,16:59,18:00,+254700555012,«1»\nbaobab'],
  [
    'roster/overlap',
    'rota',
    '5012,1\nbaobab',
    '5012,1\nmarula,sun,20:00,20:00,+254700555012,2\nmarula,mon,19:59,20:00,+254700555012,«2»\nbaobab',
  ],
  [
    'roster/overlap',
    'rota',
    '5012,1\nbaobab',
    '5012,1\nmarula,2026-12-24..2026-12-26,20:00,08:00,+254700555012,1\nmarula,2026-12-27,07:00,09:00,+254700555012,«1»\nbaobab',
  ],
  ['roster/not-a-date', 'leave', '2026-12-24', '«24/12/2026»', 'Write 2026-12-24,'],
  ['roster/not-a-date', 'leave', '2026-12-24', '«11/12/2026»', 'Write 2026-12-11 or 2026-11-12,'],
  ['roster/not-a-date', 'leave', '2026-12-24', '«2026-11-31»'],
  ['roster/dates-reversed', 'leave', '2026-12-26', '«2026-12-23»'],
  ['roster/itself', 'leave', '2026-12-26,+254700555021', '2026-12-26,«+254700555012»'],
  ['roster/leave-twice', 'leave', '+254700555021\n', '+254700555021\n+254700555012,«2026-12-26»,2026-12-28,\n'],
  ['roster/cell-empty', 'people', 'Akinyi', '«»'],
  ['roster/cell-without-column', 'people', 'en,yes', 'en,yes,«extra»'],
  ['roster/unknown-column', 'people', 'language', '«langage»', 'Write "language".'],
  ['roster/column-missing', 'people', 'phone,name,roles,facility,language,may-inject', '«phone,name,roles,facility,may-inject»'],
  ['roster/column-twice', 'leave', 'instead', '«from»'],
  ['roster/quote-not-closed', 'people', '+254700555101,Akinyi,worker,marula,en,yes', '«+254700555101,"Akinyi,worker,marula,en,yes»'],
  ['roster/letters-lost', 'people', 'Akinyi', 'Akin«\uFFFD»i'],
];

describe('a roster with a fault', () => {
  const cases = errors.map(([code, table, from, to, fix]) => ({ code, table, from, to, fix }));
  it.each(cases)('$code points at it in $table, and says what to type', ({ code, table, from, to, fix }) => {
    const { texts, file, range } = spoilt(table, from, to);
    const { faults } = read(texts);
    expect(faults[0]).toMatchObject({ code, severity: 'error', file, range });
    expect(codesOf(faults)).toEqual([code]);
    if (fix !== undefined) expect(faults[0]?.fix).toContain(fix);
  });

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
