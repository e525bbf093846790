// What no reference case guards is found: a classification without a case, and a deciding number with cases on one side only.

import { describe, expect, it } from 'vitest';
import { decidedLines } from '../../src/authoring/checks/decided-lines.ts';
import { checkFloorCoverage } from '../../src/authoring/checks/floor-coverage.ts';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import type { ReferenceCase } from '../../src/authoring/read-reference-cases.ts';
import { protocolFiles } from '../../src/cli/load-protocol.ts';
import { defaultProtocol, flowsFolder } from '../support/default-protocol.ts';
import { referenceCases } from '../support/reference-cases.ts';

const sources = protocolFiles(`${flowsFolder}/protocol`);

function uncovered(cases: readonly ReferenceCase[]): Diagnostic[] {
  const found: Diagnostic[] = [];
  checkFloorCoverage(cases, defaultProtocol, sources, (diagnostic) => found.push(diagnostic));
  return found;
}

const without = (isGone: (one: ReferenceCase) => boolean): ReferenceCase[] => referenceCases.filter((one) => !isGone(one));

const reads = (finding: string, value: number | string) => (one: ReferenceCase) => {
  const given = one.input.findings[finding];
  return given === value || (Array.isArray(given) && given.includes(value));
};
const isAged =
  (...ages: number[]) =>
  (one: ReferenceCase) =>
    ages.includes(one.input.ageHours ?? -1);
const isNamed = (id: string) => (one: ReferenceCase) =>
  one.expected.not.includes(id) || one.expected.classifications.some((given) => given.id === id);
const both =
  (...all: ((one: ReferenceCase) => boolean)[]) =>
  (one: ReferenceCase) =>
    all.every((is) => is(one));

describe('the coverage of the safety floor', () => {
  it('is whole for the files as shipped', () => {
    expect(uncovered(referenceCases)).toEqual([]);
  });

  it('asks for a case of a classification that none expects, at its definition', () => {
    const gone = without((one) => one.expected.classifications.some(({ id }) => id === 'possible-herpes'));
    expect(uncovered(gone)).toMatchObject([
      {
        code: 'floor/not-covered',
        severity: 'warning',
        file: 'classifications/10-infection.yaml',
        what: 'No reference case is "possible-herpes".',
      },
    ]);
  });

  it.each([
    ['the edge of a band', reads('temperature', 35.4), ['temperature 35.4'], 'findings.yaml'],
    [
      'the edge of a band, from above',
      reads('pustule-count', 10),
      ['pustule-count 10', 'pustule-count 10 under pustule-line: over-10'],
      'findings.yaml',
    ],
    [
      'an age in one rule',
      both(isAged(719.9), isNamed('low-weight-for-age')),
      ['age 719 for "low-weight-for-age"'],
      'classifications/40-weight-and-size.yaml',
    ],
    [
      'an age in a named condition',
      both(isAged(5.9), reads('feeding', 'not-yet')),
      ['age 5 for "not-feeding"', 'age 5 for "delayed-first-feed"', 'age 5 for "not-able-to-feed"'],
      '',
    ],
    ['a limit that a switch has moved', reads('glucose', 1.0), ['glucose 1.0 under severe-glucose-line: under-1.1'], 'findings.yaml'],
    [
      'a line of a table',
      both(reads('bilirubin', 324), isAged(84)),
      ['bilirubin 324 under bilirubin-table: nice98 from 84 h'],
      'findings.yaml',
    ],
  ])('asks for the case beside %s once it is taken out', (_line, isGone, asked, file) => {
    const found = uncovered(without(isGone));
    expect(found.map(({ what }) => what).sort()).toEqual(asked.map((said) => `No reference case has ${said}.`).sort());
    if (file !== '') expect(new Set(found.map((one) => one.file))).toEqual(new Set([file]));
  });

  it('is not satisfied by a case that speaks of something else', () => {
    const other = referenceCases.map((one) =>
      isNamed('large-baby')(one) ? { ...one, expected: { ...one.expected, not: [], classifications: [] } } : one,
    );
    const said = uncovered(other).map(({ what }) => what);
    expect(said).toContain('No reference case has age 72 for "large-baby".');
    expect(said).toContain('No reference case is "large-baby".');
  });

  it('asks for no case of a number that decides nothing', () => {
    const owners = new Set(decidedLines(defaultProtocol).map(({ owner }) => owner));
    expect(owners).not.toContain('well-baby');
    expect(owners).not.toContain('gentamicin-hours-ago');
    expect(owners).not.toContain('small-baby');
  });
});
