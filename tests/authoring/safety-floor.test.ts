// The safety floor over the shipped protocol: it holds, and an edit that lowers an urgency, drops a rule or puts a time off
// does not. That it guards every number: floor-holds-every-number.test.ts.

import { describe, expect, it } from 'vitest';
import { belowFloor } from '../../src/authoring/checks/below-floor.ts';
import { judgeCases } from '../../src/authoring/checks/judged-cases.ts';
import { checkSafetyFloor } from '../../src/authoring/checks/safety-floor.ts';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readProtocol } from '../../src/authoring/read-protocol.ts';
import type { ReferenceCase } from '../../src/authoring/read-reference-cases.ts';
import { protocolFiles } from '../../src/cli/load-protocol.ts';
import { loadAll } from '../../src/cli/load-published.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import type { Classification, Interpretation } from '../../src/clinical/protocol.ts';
import { defaultProtocol, flowsFolder } from '../support/default-protocol.ts';
import { referenceCases } from '../support/reference-cases.ts';

const files = protocolFiles(`${flowsFolder}/protocol`);

/** What the floor says of the protocol after this edit of one of its files. */
function faultsAfter(file: string, from: string, to: string): Diagnostic[] {
  expect(files.find(({ name }) => name === file)?.text).toContain(from);
  const read = readProtocol(files.map((one) => (one.name === file ? { ...one, text: one.text.replace(from, to) } : one)));
  if (read.kind !== 'protocol') throw new Error(JSON.stringify(read.diagnostics));
  const faults: Diagnostic[] = [];
  const { growth } = defaultProtocol;
  const edition = { ...read.protocol, ...(growth === undefined ? {} : { growth }) };
  checkSafetyFloor(judgeCases(referenceCases, edition), (fault) => faults.push(fault));
  return faults;
}

function codesAfter(file: string, from: string, to: string): string[] {
  return [...new Set(faultsAfter(file, from, to).map(({ code }) => code))].sort();
}

describe('the safety floor', () => {
  it('holds for the protocol as shipped', () => {
    expect(codesAfter('limits.yaml', '38.0', '38.0')).toEqual([]);
  });

  it('stops an edit that makes a cold baby less urgent, where its case stands', () => {
    const [first, ...others] = faultsAfter(
      'classifications/20-temperature.yaml',
      '{ urgent: temperature is low, rows',
      '{ treat: temperature is low, rows',
    );
    expect(first).toMatchObject({ code: 'floor/less-urgent', severity: 'error', file: expect.stringContaining('flows/reference-cases/') });
    expect(new Set(others.map(({ code }) => code))).toEqual(new Set(['floor/less-urgent']));
  });

  it('stops an edit that moves the limit of fever up', () => {
    expect(codesAfter('limits.yaml', '38.0', '38.1')).toEqual(['floor/classified-too', 'floor/less-urgent', 'floor/not-classified']);
  });

  it('stops an edit that drops grunting from its rule', () => {
    expect(codesAfter('classifications/30-breathing-and-heart.yaml', '{ urgent: grunting', '{ urgent: jittery')).toContain(
      'floor/not-classified',
    );
  });

  it('stops an edit that puts off the time of the next look', () => {
    const [from, to] = ['{ treat: any-yellow, recheck: P1D }', '{ treat: any-yellow, recheck: P3D }'];
    expect(codesAfter('classifications/50-jaundice-and-colour.yaml', from, to)).toEqual(['floor/later']);
  });

  it('stops an edit after which a second count of breaths is no longer asked for', () => {
    const [from, to] = ['- last reading of respiratory-rate is fast', '- 2 readings of respiratory-rate are fast'];
    expect(codesAfter('needs.yaml', from, to)).toEqual(['floor/less-urgent', 'floor/not-asked']);
  });

  it('lets an edit pass that only makes a baby more urgent', () => {
    expect(
      codesAfter('classifications/60-nerves-and-glucose.yaml', '{ treat: looks-ill, recheck: PT2H }', '{ urgent: looks-ill }'),
    ).toEqual([]);
  });

  it('is held when everything is loaded to be published', async () => {
    const { diagnostics, published } = loadAll({
      flows: flowsFolder,
      locales: `${flowsFolder}/../locales`,
      PIPIT_ALLOW_DRAFTS: true,
    });
    expect(diagnostics.filter(({ severity, code }) => severity === 'error' || code.startsWith('floor/'))).toEqual([]);
    expect(published).not.toBeNull();
  });
});

describe('what a case falls below the floor by', () => {
  const [one] = referenceCases.filter(({ id }) => id === 'mild-hypothermia');
  const held = interpret(defaultProtocol, one!.input);
  const [given] = held.classifications;
  const changed = (change: Partial<Classification>): Interpretation => ({ ...held, classifications: [{ ...given!, ...change }] });

  it('is nothing when it comes out as expected, or sooner, or more urgent', () => {
    for (const result of [held, changed({ recheck: 'PT30M' }), changed({ urgency: 'urgent' }), { ...held, urgency: 'refer' as const }])
      expect(belowFloor(one!, result)).toEqual([]);
  });

  it.each([
    ['not-classified', { ...held, classifications: [] }],
    ['less-urgent', { ...held, urgency: 'incomplete' as const }],
    ['less-urgent', changed({ urgency: 'routine' })],
    ['later', changed({ recheck: 'PT2H' })],
  ])('is said as %s', (code, result) => {
    expect(belowFloor(one!, result).map(([said]) => said)).toEqual([code]);
  });

  it('is a question that is no longer asked', () => {
    const asking: ReferenceCase = { ...one!, expected: { ...one!.expected, missing: ['ageHours'] } };
    expect(belowFloor(asking, held).map(([said]) => said)).toEqual(['not-asked']);
  });
});
