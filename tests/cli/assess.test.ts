// `pipit assess` as a program that pipes cases in would see it: what comes out, where, and with which exit code.

import { describe, expect, it } from 'vitest';
import { runAssess } from '../../src/cli/assess.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

const protocol = { kind: 'protocol', protocol: defaultProtocol } as const;
const run = (stdin: string, lines = false) => runAssess(stdin, { protocol, lines });
const well = '{"id":"w","ageHours":30,"findings":{"temperature":36.8},"unlisted":"normal"}';

describe('one case', () => {
  it('gives one result with its id, and exit 0, urgent too', () => {
    const { stdout, stderr, exitCode } = run('{"id":7,"ageHours":30,"findings":{"grunting":true}}');
    expect(JSON.parse(stdout)).toMatchObject({ id: 7, urgency: 'urgent' });
    expect({ stderr, exitCode }).toEqual({ stderr: '', exitCode: 0 });
  });

  it('has all the keys of the contract', () => {
    const result = JSON.parse(run(well).stdout) as Record<string, unknown>;
    expect(Object.keys(result)).toEqual(['id', 'urgency', 'classifications', 'missing', 'advice', 'computed']);
    const computed = Object.keys(result.computed as object).sort();
    expect(computed).toEqual(
      [
        'weightChangePercent',
        'sizeForGestation',
        'weightForAge',
        'headForAge',
        'headForGestation',
        'lengthForGestation',
        'weightGainPerDay',
        'doses',
        'feedVolume',
        'nextContacts',
        'notComputed',
      ].sort(),
    );
  });

  it.each([
    ['not JSON', 'grunting', 'input', 'this is not JSON'],
    ['not an object', '[[]]', '', 'is not a case'],
    ['an unknown field', '{"agehours":5}', 'agehours', 'did you mean "ageHours"'],
    ['an unknown finding', '{"findings":{"gruntin":true}}', 'findings.gruntin', 'did you mean "grunting"'],
    ['an unknown option', '{"findings":{"feeding":"not-al-all"}}', 'findings.feeding', 'did you mean "not-at-all"'],
    ['an unknown switch', '{"switches":{"fever":"from-37.5"}}', 'switches.fever', 'did you mean "fever-line"'],
    ['an unknown option of a switch', '{"switches":{"fever-line":"from-37"}}', 'switches.fever-line', 'did you mean "from-37.5"'],
    [
      'a list of what was given before',
      '{"givenBefore":["jitteriness"]}',
      'givenBefore',
      'give an object of classification ids and hours ago',
    ],
    ['an unknown classification', '{"givenBefore":{"jiteriness":1}}', 'givenBefore.jiteriness', 'did you mean "jitteriness"'],
    ['a time to come', '{"givenBefore":{"jitteriness":-1}}', 'givenBefore.jitteriness', '-1 is not plausible; give 0 to 1439 h'],
    ['a name from the prototype', '{"findings":{"__proto__":true}}', 'findings.__proto__', 'there is no finding'],
    ['a wrong kind of sign', '{"findings":{"grunting":"yes"}}', 'findings.grunting', '"yes" is not an answer'],
    ['a wrong kind of number', '{"findings":{"temperature":"36.5"}}', 'findings.temperature', '"36.5" is not a number'],
    ['half a breath', '{"findings":{"respiratory-rate":44.5}}', 'findings.respiratory-rate', 'not a whole number'],
    ['too many readings', '{"findings":{"temperature":[36,36,36,36]}}', 'findings.temperature', 'up to 3'],
    ['no reading', '{"findings":{"temperature":[]}}', 'findings.temperature', 'a list of 0'],
    ['a list where none may be', '{"findings":{"length":[50]}}', 'findings.length', 'give one value'],
    ['an implausible value', '{"findings":{"temperature":52}}', 'findings.temperature', '52 is not plausible; give 25.0 to 43.0 °C'],
    ['an implausible age', '{"ageHours":1440}', 'ageHours', '1440 is not plausible; give 0 to 1439 h'],
    ['an age of 60 days', '{"ageHours":1440.5}', 'ageHours', '1440.5 is not plausible; give 0 to 1439 h'],
    ['a birth that is still to come', '{"ageHours":-3}', 'ageHours', '-3 is not plausible; give 0 to 1439 h'],
    ['an age in words', '{"ageHours":"8 weeks"}', 'ageHours', '"8 weeks" is not a number; give 0 to 1439 h'],
    ['an implausible weight', '{"birthWeightGrams":3.2}', 'birthWeightGrams', '3.2 is not plausible; give 300 to 8000 g'],
    ['implausible weeks', '{"gestation":{"weeks":45}}', 'gestation.weeks', '45 is not plausible; give 20 to 44 weeks'],
    ['an eighth day of the week', '{"gestation":{"weeks":39,"days":7}}', 'gestation.days', '7 is not plausible; give 0 to 6 days'],
    ['an unknown sex', '{"sex":"male"}', 'sex', '"male" is not one of its words'],
    [
      'testes looked for and not felt on a girl',
      '{"sex":"girl","findings":{"testes":"none-felt"}}',
      'findings.testes',
      '"none-felt" can only be found on a boy, and the sex is girl',
    ],
    [
      'a boy finding on a girl',
      '{"sex":"girl","findings":{"tight-foreskin":true}}',
      'findings.tight-foreskin',
      'can only be found on a boy',
    ],
    [
      'a girl finding on a boy',
      '{"sex":"boy","findings":{"vaginal-discharge":"little-blood"}}',
      'findings.vaginal-discharge',
      'can only be found on a girl',
    ],
    [
      'a boy option on a girl',
      '{"sex":"girl","findings":{"bleeding-now":"circumcision"}}',
      'findings.bleeding-now',
      'can only be found on a boy',
    ],
    ['feeds of a baby not fed yet', '{"findings":{"feeding":"not-yet","feeds-per-day":2}}', 'findings.feeds-per-day', 'feeding is not-yet'],
    [
      'stools of a baby with no stool',
      '{"findings":{"no-stool-since-birth":true,"pale-stools":true}}',
      'findings.no-stool-since-birth',
      'no stool since birth',
    ],
    [
      'napkins of a baby with no urine',
      '{"findings":{"no-urine-since-birth":true,"wet-napkins-per-day":2}}',
      'findings.wet-napkins-per-day',
      'no urine since birth',
    ],
    [
      'days of stools that are not watery',
      '{"findings":{"watery-stools":false,"watery-stools-days":2}}',
      'findings.watery-stools-days',
      'watery-stools is false',
    ],
    [
      '2 kg gained on the first day',
      '{"ageHours":24,"birthWeightGrams":3000,"weightGrams":5000}',
      'weightGrams',
      'more than 25 % above birthWeightGrams before 72 h',
    ],
    [
      '2 kg gained in ten days',
      '{"ageHours":240,"birthWeightGrams":3000,"weightGrams":5000}',
      'weightGrams',
      'more than 50 % above birthWeightGrams before 336 h',
    ],
    [
      '2 kg gained since yesterday',
      '{"ageHours":400,"weightGrams":5000,"findings":{"previous-weight":3000,"days-since-previous":1}}',
      'findings.previous-weight',
      'more than 150 g/kg a day',
    ],
    [
      'a sign that is there and not there',
      '{"findings":{"grunting":true,"grunting":false}}',
      'findings.grunting',
      'given twice; give it once',
    ],
    ['two ages', '{"ageHours":5,"ageHours":50}', 'ageHours', 'given twice; give it once'],
    [
      'the distance of no dimple',
      '{"findings":{"sacral-dimple":false,"dimple-distance":2}}',
      'findings.dimple-distance',
      'sacral-dimple is false',
    ],
    ['the size of no dimple', '{"findings":{"sacral-dimple":false,"dimple-size":2}}', 'findings.dimple-size', 'sacral-dimple is false'],
  ])('with %s is refused by name, with what to give, on stderr alone', (_what, stdin, field, message) => {
    const text = stdin === '[[]]' ? '3' : stdin;
    const { stdout, stderr, exitCode } = run(text);
    expect({ stdout, exitCode }).toEqual({ stdout: '', exitCode: 2 });
    expect(stderr.split('\n')[0]).toContain(`pipit assess: 1: ${field === '' ? 'case' : field}: `);
    expect(stderr).toContain(message);
  });

  it.each([
    ['a normal value of the other sex', '{"sex":"girl","findings":{"tight-foreskin":false,"testes":"both-felt"}}'],
    ['null, not looked at', '{"findings":{"temperature":null,"grunting":null},"gestation":null,"sex":null}'],
    ['nothing at all', '{}'],
    ['an age of 8 weeks', '{"ageHours":1344}'],
    ['the last hour of 59 days', '{"ageHours":1439}'],
    ['a quarter gained in three days', '{"ageHours":71,"birthWeightGrams":3000,"weightGrams":3750}'],
    ['half gained in two weeks', '{"ageHours":335,"birthWeightGrams":3000,"weightGrams":4500}'],
    ['a weight doubled in six weeks', '{"ageHours":1008,"birthWeightGrams":2500,"weightGrams":5000}'],
    ['a brace within a name', '{"id":"{\\"findings\\":1,","findings":{"pale":false}}'],
    ['no feed yet and no feeds', '{"findings":{"feeding":"not-yet","feeds-per-day":0}}'],
  ])('with %s is not refused', (_what, stdin) => {
    expect(run(stdin).exitCode).toBe(0);
  });

  it('takes null for not looked at, whatever is said of what is not listed', () => {
    expect(JSON.parse(run('{"ageHours":30,"findings":{"grunting":null},"unlisted":"normal"}').stdout)).toMatchObject({
      urgency: 'incomplete',
      missing: ['grunting'],
    });
  });

  it('tells every fault, one a line', () => {
    const { stderr } = run('{"sex":"x","ageHours":-1,"findings":{"pale":2}}');
    expect(stderr.trimEnd().split('\n')).toHaveLength(3);
  });

  it('keeps one message on one line, whatever the id holds', () => {
    expect(run('{"id":"a\\nb","x":1}').stderr.trimEnd().split('\n')).toHaveLength(1);
  });
});

describe('several cases', () => {
  it('in an array come out as an array in the same order, a fault in its place', () => {
    const { stdout, stderr, exitCode } = run(`[${well},{"id":"b","findings":{"pale":2}},${well}]`);
    const results = JSON.parse(stdout) as Record<string, unknown>[];
    expect(results.map((one) => one.urgency ?? (one.error as { field: string }).field)).toEqual(['routine', 'findings.pale', 'routine']);
    expect(stderr).toMatch(/^pipit assess: b: findings\.pale: /);
    expect(exitCode).toBe(2);
  });

  it('say where a name is given twice in the case that has it', () => {
    const { stdout, stderr } = run(`[${well},{"id":"b","findings":{"pale":true,"grunting":true,"pale":false}}]`);
    expect(stderr).toMatch(/^pipit assess: b: findings\.pale: "pale" is given twice/);
    const results = JSON.parse(stdout) as Record<string, unknown>[];
    expect(results.map((one) => Object.keys(one)[1])).toEqual(['urgency', 'error']);
  });

  it('in lines come out one a line, a line that is not JSON too', () => {
    const { stdout, exitCode } = run(`${well}\nno\n\n${well}\n`, true);
    expect(
      stdout
        .trimEnd()
        .split('\n')
        .map((line) => (JSON.parse(line) as { urgency?: string }).urgency),
    ).toEqual(['routine', undefined, 'routine']);
    expect(exitCode).toBe(2);
  });

  it('may be none', () => {
    expect(run('[]')).toEqual({ stdout: '[]\n', stderr: '', exitCode: 0 });
    expect(run('', true)).toEqual({ stdout: '', stderr: '', exitCode: 0 });
  });
});

describe('a protocol that cannot be loaded', () => {
  it('is said on stderr with exit 1, and no case is read', () => {
    expect(runAssess(well, { protocol: { kind: 'unusable', why: 'findings.yaml is missing' }, lines: false })).toEqual({
      stdout: '',
      stderr: 'findings.yaml is missing\n',
      exitCode: 1,
    });
  });
});
