// An export as FHIR R4 is valid, over what conversations leave in the register and over every reference case; and errors that are
// seeded are found, so that "no fault" says something.

import type { Bundle, FhirResource, Observation } from 'fhir/r4.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadFhirCodes } from '../../../src/cli/load-export-data.ts';
import { bindBook } from '../../../src/conversation/book.ts';
import { say } from '../../../src/messages/catalogue.ts';
import { deIdentify } from '../../../src/register/export/de-identify.ts';
import { bundleOf } from '../../../src/register/export/fhir-bundle.ts';
import type { RegisterMonth } from '../../../src/register/export/month.ts';
import { flowsFolder } from '../../support/default-protocol.ts';
import { published } from '../../support/desk.ts';
import { faultsOfBundle } from '../../support/fhir-validation.ts';
import { playedMonth, referenceMonth } from './months.ts';

const codes = loadFhirCodes(flowsFolder);

async function exported(month: RegisterMonth, language = 'en'): Promise<Bundle> {
  const files = published();
  const { findings, has } = bindBook(files);
  const speak = (key: string, values?: Parameters<typeof say>[3]): string => say(files.catalogues, language, key, values);
  return bundleOf({ month, codes, findings, has, speak, facilityName: (id) => id });
}

const resources = (bundle: Bundle): FhirResource[] =>
  (bundle.entry ?? []).flatMap(({ resource }) => (resource === undefined ? [] : [resource as FhirResource]));
const ofType = <Type extends FhirResource['resourceType']>(bundle: Bundle, type: Type) =>
  resources(bundle).filter((one): one is Extract<FhirResource, { resourceType: Type }> => one.resourceType === type);

const conversations = [
  'normal-girl',
  'normal-boy',
  'danger-fever',
  'alert-grows',
  'corrected-alert',
  'danger-cold',
  'twins',
  'preterm',
  'recheck-cold',
  'contact-weight-loss',
  'hindi-danger',
  'not-assessed',
  'list',
];

describe('the Bundle of a month', () => {
  it.each(conversations)('is valid after the conversation %s, and so is its de-identified form', async (name) => {
    const month = await playedMonth(name);
    const bundle = await exported(month);
    expect(faultsOfBundle(bundle)).toEqual([]);
    expect(ofType(bundle, 'Patient').length).toBeGreaterThan(0);
    expect(faultsOfBundle(await exported(deIdentify(month, 'a secret for tests only', 20), 'hi'))).toEqual([]);
  });

  it('is valid for every reference case, and holds each finding that was looked at', async () => {
    const month = await referenceMonth();
    const bundle = await exported(month);
    expect(month.examinations.length).toBeGreaterThan(100);
    expect(faultsOfBundle(bundle)).toEqual([]);
    const looked = month.examinations.flatMap(({ found }) =>
      Object.values(found?.case.findings ?? {}).flatMap((value) => (Array.isArray(value) && value.length > 0 ? value : [value])),
    );
    const known = month.examinations.flatMap(({ found }) => {
      const aCase = found?.case;
      return [aCase?.ageHours, aCase?.gestation, aCase?.birthWeightGrams, aCase?.weightGrams].filter((value) => value != null);
    });
    expect(ofType(bundle, 'Observation')).toHaveLength(looked.length + known.length);
    expect(ofType(bundle, 'RiskAssessment')).toHaveLength(month.examinations.length);
  });

  it('is empty and valid for a month without examinations', async () => {
    const month = await playedMonth('normal-girl');
    const empty = { ...month, facility: null, babies: [], examinations: [], alerts: [], referrals: [], texts: [], work: [] };
    expect(faultsOfBundle(await exported(empty))).toEqual([]);
  });

  it('has the same ids when it is exported again', async () => {
    const month = await playedMonth('danger-fever');
    expect(await exported(month)).toEqual(await exported(month));
  });

  it('follows an urgent baby: referral with its Task, alert, texts and due work, all of one Patient', async () => {
    const bundle = await exported(await playedMonth('danger-fever'));
    const [patient] = ofType(bundle, 'Patient');
    const subject = { reference: `Patient/${patient?.id}` };
    expect(patient).not.toHaveProperty('name');
    expect(ofType(bundle, 'ServiceRequest')).toMatchObject([{ status: 'active', priority: 'stat', subject }]);
    expect(ofType(bundle, 'Task').length).toBeGreaterThan(1);
    expect(ofType(bundle, 'Communication').map(({ category }) => category?.[0]?.coding?.[0]?.code)).toEqual(
      expect.arrayContaining(['alert', 'text']),
    );
    expect(ofType(bundle, 'RiskAssessment').at(-1)?.code?.coding?.[0]?.code).toBe('urgent');
  });

  it('says a temperature in LOINC and UCUM', async () => {
    const bundle = await exported(await playedMonth('danger-fever'));
    const temperature = ofType(bundle, 'Observation').find((one) => one.code.coding?.some(({ code }) => code === '8310-5'));
    expect(temperature?.valueQuantity).toMatchObject({ system: 'http://unitsofmeasure.org', code: 'Cel' });
  });

  it('has a UCUM code for every unit of the protocol', async () => {
    const units = [...published().findings.values()].flatMap((one) => ('unit' in one && one.unit ? [one.unit] : []));
    expect([...new Set(units)].filter((unit) => !codes.ucum.has(unit))).toEqual([]);
    expect([...codes.loinc.values()].filter(({ unit }) => !codes.ucum.has(unit))).toEqual([]);
  });

  it('knows every finding that the table of codes names', async () => {
    const { findings } = published();
    const fields = ['weight', 'birth-weight', 'gestation'];
    expect([...codes.loinc.keys()].filter((of) => !findings.has(of) && !fields.includes(of))).toEqual([]);
  });
});

/** LOINC's check digit: modulus 10, "double-add-double". Source: LOINC Users' Guide, appendix on the check digit; from memory. */
function checkDigit(body: string): number {
  const digits = [...body].reverse().map(Number);
  const odd = digits.filter((_, at) => at % 2 === 0).join('');
  const even = digits.filter((_, at) => at % 2 === 1).join('');
  const sum = [...String(Number(odd.split('').reverse().join('')) * 2)]
    .map(Number)
    .concat([...even].map(Number))
    .reduce((a, b) => a + b, 0);
  return (10 - (sum % 10)) % 10;
}

describe('the table of codes', () => {
  it('holds no LOINC code with a slipped digit: each has the right check digit', () => {
    const all = [...codes.loinc.values()].flatMap(({ codings }) => codings.map(({ code }) => code));
    expect(all.filter((code) => checkDigit(code.slice(0, -2)) !== Number(code.at(-1)))).toEqual([]);
    expect(checkDigit('8876')).not.toBe(4);
  });
});

describe('the validation', () => {
  let bundle: Bundle;
  beforeAll(async () => {
    bundle = await exported(await playedMonth('danger-fever'));
  });

  type Seed = (copy: Bundle) => void;
  const first = (copy: Bundle, type: FhirResource['resourceType']) => ofType(copy, type)[0] as unknown as Record<string, unknown>;
  const seeds: [string, Seed][] = [
    ['a Patient of unknown gender code', (copy) => Object.assign(first(copy, 'Patient'), { gender: 'girl' })],
    ['a birth date that is none', (copy) => Object.assign(first(copy, 'Patient'), { birthDate: '25/11/2026' })],
    ['an id with a plus', (copy) => Object.assign(first(copy, 'Patient'), { id: '+254700555101' })],
    ['an element that R4 does not have', (copy) => Object.assign(first(copy, 'Patient'), { nickname: 'baby' })],
    ['an Observation without status', (copy) => Reflect.deleteProperty(first(copy, 'Observation'), 'status')],
    ['an Observation without code', (copy) => Reflect.deleteProperty(first(copy, 'Observation'), 'code')],
    [
      'two values',
      (copy) =>
        Object.assign(ofType(copy, 'Observation').find((one: Observation) => one.valueQuantity !== undefined) ?? {}, {
          valueBoolean: true,
        }),
    ],
    ['a quantity that is text', (copy) => Object.assign(first(copy, 'Observation'), { valueQuantity: { value: '38,5' } })],
    ['an empty string', (copy) => Object.assign(first(copy, 'RiskAssessment'), { method: { text: '' } })],
    ['an empty list', (copy) => Object.assign(first(copy, 'RiskAssessment'), { basis: [] })],
    ['an empty object', (copy) => Object.assign(first(copy, 'RiskAssessment'), { method: {} })],
    ['a reference astray', (copy) => Object.assign(first(copy, 'Encounter'), { subject: { reference: 'Patient/nobody' } })],
    ['a ServiceRequest without intent', (copy) => Reflect.deleteProperty(first(copy, 'ServiceRequest'), 'intent')],
    ['a priority that R4 does not have', (copy) => Object.assign(first(copy, 'ServiceRequest'), { priority: 'now' })],
    ['a Task of a status that R4 does not have', (copy) => Object.assign(first(copy, 'Task'), { status: 'missed' })],
    ['a Communication sent at no time', (copy) => Object.assign(first(copy, 'Communication'), { sent: 'yesterday' })],
    ['an Encounter without class', (copy) => Reflect.deleteProperty(first(copy, 'Encounter'), 'class')],
    ['the same baby twice', (copy) => copy.entry?.push(...copy.entry.slice(1, 2))],
  ];

  it.each(seeds)('finds %s', (_name, seed) => {
    const copy = structuredClone(bundle);
    seed(copy);
    expect(faultsOfBundle(copy)).not.toEqual([]);
  });
});
