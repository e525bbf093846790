// What an author is told when a row of the reference is lost or said twice, and when a decision to sign off names nothing.

import { describe, expect, it } from 'vitest';
import { renderDiagnostic } from '../../src/authoring/diagnostic.ts';
import { readProtocol } from '../../src/authoring/read-protocol.ts';
import { protocolFiles } from '../../src/cli/load-protocol.ts';
import { flowsFolder } from '../support/default-protocol.ts';

const files = protocolFiles(`${flowsFolder}/protocol`);

function edited(name: string, from: string, to: string) {
  const file = files.find((one) => one.name === name);
  if (!file?.text.includes(from)) throw new Error(`${name} does not hold "${from}"`);
  const text = file.text.replace(from, to);
  const read = readProtocol(files.map((one) => (one.name === name ? { name, text } : one)));
  return { text, kind: read.kind, diagnostics: read.kind === 'faulty' ? read.diagnostics : read.warnings };
}

describe('a fault in what is said of the rows', () => {
  it.each([
    ['rows-without-rule.yaml', 'rows: [EYE-04]', 'rows: [EYE-94]', 'faulty', 'protocol/unknown-row', 'EYE-94'],
    ['rows-without-rule.yaml', 'rows: [EYE-04]', 'rows: [EYE-04, EYE-03]', 'protocol', 'rows/rule-and-reason', 'EYE-03'],
    ['rows-without-rule.yaml', 'rows: [EYE-04]', 'rows: [EYE-04, FU-09]', 'protocol', 'rows/reason-twice', 'FU-09'],
    ['rows-without-rule.yaml', 'rows: [EYE-04]', 'rows: []', 'protocol', 'rows/no-rule-and-no-reason', 'EYE-04'],
    ['rows-without-rule.yaml', 'rows: [FU-09]', 'row: [FU-09]', 'faulty', 'yaml/unknown-field', '"row"'],
    ['classifications/20-temperature.yaml', 'rows: [TEMP-21] }', 'rows: [] }', 'protocol', undefined, undefined],
    ['classifications/60-nerves-and-glucose.yaml', 'rows: [NEUR-12]', 'rows: [NEUR-11]', 'protocol', undefined, undefined],
    ['sign-off.yaml', 'limits: [low-glucose]', 'limits: [low-glucos]', 'faulty', 'protocol/unknown-limit', 'low-glucos'],
    [
      'sign-off.yaml',
      'switches: [gentamicin-table]',
      'switches: [gentamycin-table]',
      'faulty',
      'protocol/unknown-switch',
      'gentamycin-table',
    ],
    ['sign-off.yaml', 'tables: [rec12]', 'tables: [rec21]', 'faulty', 'protocol/unknown-table', 'rec21'],
    ['sign-off.yaml', 'rows: [BILI-01]', 'rows: [BILI-91]', 'faulty', 'protocol/unknown-row', 'BILI-91'],
    ['sign-off.yaml', 'proof: [from-memory, project]', 'proof: [from-memry]', 'faulty', 'yaml/unknown-word', 'from-memry'],
    ['sign-off.yaml', '    decide: "Hold the dose', '    decides: "Hold the dose', 'faulty', 'yaml/field-missing', 'decide'],
  ] as const)('is told: %s, %s -> %s', (name, from, to, kind, code, named) => {
    const { diagnostics, text, kind: found } = edited(name, from, to);
    expect(found).toBe(kind);
    const [fault] = diagnostics.filter((one) => one.code === code);
    if (code === undefined) {
      // A row that a finding still names is not lost.
      expect(diagnostics).toEqual([]);
      return;
    }
    expect(fault?.what).toContain(named);
    expect(fault?.severity).toBe(kind === 'faulty' ? 'error' : 'warning');
    expect(renderDiagnostic(fault!, text)).toMatch(/fix {2}\S/);
  });

  it('is told at the row itself when nothing carries a new row', () => {
    const { diagnostics } = edited('rows.yaml', 'rows:\n', 'rows:\n  EYE-99: { proof: [project], source: "project" }\n');
    expect(diagnostics.map(({ code, what, file }) => ({ code, what, file }))).toEqual([
      { code: 'rows/no-rule-and-no-reason', what: 'No rule carries EYE-99, and no reason is given for that.', file: 'rows.yaml' },
    ]);
  });
});
