import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { type ReadRoster, readRoster } from '../../src/authoring/read-roster.ts';
import { sourceOf } from '../../src/cli/load-files.ts';
import { flowsFolder } from '../support/default-protocol.ts';
import { codesOf, marked } from './marked-yaml.ts';

const file = 'roster.yaml';

function read(text: string): { roster: ReadRoster; faults: Diagnostic[] } {
  const faults: Diagnostic[] = [];
  return { roster: readRoster({ name: file, text }, (fault) => faults.push(fault)), faults };
}

/** Invented people at an invented place. */
const facilities = 'facilities:\n  marula: { name: Marula HC, zone: Africa/Nairobi, nurse: "+254700555012" }\n';
const nurse = '  - { phone: "+254700555012", name: Wanjiru, roles: [nurse], facility: marula, language: en }\n';
const person = (phone = '"+254700555101"', roles = '[worker]', facility = 'marula'): string =>
  `  - { phone: ${phone}, name: Akinyi, roles: ${roles}, facility: ${facility}, language: en, may-inject: yes }\n`;
const sound = `${facilities}people:\n${nurse}${person()}`;

describe('a roster', () => {
  it('that ships for trying has no fault', () => {
    const { roster, faults } = read(sourceOf(join(flowsFolder, 'demo/roster.yaml')).text);
    expect(faults).toEqual([]);
    expect(roster.people.length).toBeGreaterThan(3);
    for (const one of roster.people) expect(roster.facility(one.facility)).toBeDefined();
  });

  it('finds people by number and facilities by name', () => {
    const { roster, faults } = read(sound);
    expect(faults).toEqual([]);
    expect(roster.find('+254700555101')).toEqual({
      phone: '+254700555101',
      name: 'Akinyi',
      roles: ['worker'],
      facility: 'marula',
      language: 'en',
      mayInject: true,
    });
    expect(roster.find('+254700555012')).toMatchObject({ roles: ['nurse'], mayInject: false });
    expect(roster.facility('marula')).toEqual({ id: 'marula', name: 'Marula HC', zone: 'Africa/Nairobi', nurse: '+254700555012' });
    expect(roster.find('__proto__')).toBeUndefined();
    expect(roster.facility('constructor')).toBeUndefined();
  });

  it('keeps a number as it was written, with or without quotes', () => {
    expect(read(sound.replace('"+254700555101"', '+254700555101')).roster.find('+254700555101')).toBeDefined();
  });
});

describe('a roster with a fault', () => {
  const pairs: readonly (readonly [code: string, wrong: string, right: string])[] = [
    ['roster/not-a-number', `${facilities}people:\n${nurse}${person('«"0700555101"»')}`, sound],
    ['roster/not-a-number', `${facilities}people:\n${nurse}${person('«254700555101»')}`, sound],
    ['roster/not-a-number', `${facilities}people:\n${nurse}${person('«"+254 700 555 101"»')}`, sound],
    ['roster/not-a-number', `${facilities}people:\n${nurse}${person('«"+2547005551"»')}`, sound],
    [
      'roster/number-twice',
      `${facilities}people:\n${nurse}${person()}  - «{ phone: "+254700555101", name: Juma, roles: [worker], facility: marula, language: sw }»\n`,
      sound,
    ],
    ['roster/unknown-facility', `${facilities}people:\n${nurse}${person(undefined, undefined, '«marulla»')}`, sound],
    ['roster/unknown-zone', sound.replace('Africa/Nairobi', '«Africa/Narobi»'), sound],
    ['roster/no-role', `${facilities}people:\n${nurse}${person(undefined, '[]').replace('roles', '«roles»')}`, sound],
    ['roster/nurse-not-listed', `${facilities.replace('marula', '«marula»')}people:\n${person()}`, sound],
    ['roster/nurse-not-listed', `${facilities.replace('marula', '«marula»')}people:\n${nurse.replace('[nurse]', '[worker]')}`, sound],
  ];

  it.each(pairs)('%s points at it, and is silent once it is mended', (code, wrong, right) => {
    const { text, range } = marked(wrong);
    const [first] = read(text).faults;
    expect(first).toMatchObject({ code, file, range, severity: code === 'roster/nurse-not-listed' ? 'warning' : 'error' });
    expect(codesOf(read(text).faults)).toEqual([code]);
    expect(codesOf(read(right).faults)).toEqual([]);
  });

  it('does not blame the people for a facility that cannot be read', () => {
    const { faults } = read(sound.replace('Africa/Nairobi', 'Mars/Olympus'));
    expect(codesOf(faults)).toEqual(['roster/unknown-zone']);
  });

  it.each([
    ['an unknown role', sound.replace('[worker]', '[midwife]'), 'yaml/unknown-word'],
    ['an unknown field', sound.replace('may-inject', 'may-injekt'), 'yaml/unknown-field'],
    ['neither yes nor no', sound.replace('may-inject: yes', 'may-inject: maybe'), 'yaml/not-yes-or-no'],
    ['no name', sound.replace('name: Akinyi, ', ''), 'yaml/field-missing'],
    ['no people', facilities, 'yaml/field-missing'],
    ['nothing', '', 'yaml/not-a-map'],
    ['a list', '- a', 'yaml/not-a-map'],
    ['one field twice', `${facilities}${sound}`, 'yaml/not-readable'],
  ])('of %s is told so', (_what, text, code) => {
    expect(codesOf(read(text).faults)).toContain(code);
  });
});
