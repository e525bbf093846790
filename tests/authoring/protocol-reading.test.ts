// What a coordinator is told when a file of the protocol is wrong: each fault by its file, place, and mend.

import { describe, expect, it } from 'vitest';
import { renderDiagnostic } from '../../src/authoring/diagnostic.ts';
import { protocolFiles, readProtocol } from '../../src/authoring/read-protocol.ts';
import { loadProtocol } from '../../src/cli/load-protocol.ts';
import { flowsFolder } from '../support/default-protocol.ts';

const { files, read: shipped } = loadProtocol(`${flowsFolder}/protocol`);

/** The shipped protocol with one text of one file replaced. */
function edited(name: string, from: string, to: string) {
  const file = files.find((one) => one.name === name);
  if (file === undefined || !file.text.includes(from)) throw new Error(`${name} does not hold "${from}"`);
  const text = file.text.replace(from, to);
  const read = readProtocol(files.map((one) => (one.name === name ? { name, text } : one)));
  return { text, diagnostics: read.kind === 'faulty' ? read.diagnostics : read.warnings, read };
}

describe('the shipped protocol', () => {
  it('is read without a word', () => {
    expect(shipped.kind).toBe('protocol');
    expect(shipped.kind === 'protocol' && shipped.warnings).toEqual([]);
  });

  it('cites a source or says that there is none for every row that a rule names', () => {
    if (shipped.kind !== 'protocol') throw new Error('not read');
    const { protocol } = shipped;
    const named = protocol.classifications.flatMap((rule) => [...rule.rows, ...rule.rules.flatMap((one) => one.rows)]);
    const untagged = [...new Set(named)].filter((row) => protocol.rows.get(row)?.proof.length === 0);
    expect(untagged).toEqual(['ABD-01']);
  });

  it.each(protocolFiles.map((name) => [name]))('is refused without %s', (name) => {
    const read = readProtocol(files.filter((one) => one.name !== name));
    expect(read.kind).toBe('faulty');
    expect(read.kind === 'faulty' && read.diagnostics.some((one) => one.code === 'protocol/file-missing' && one.file === name)).toBe(true);
  });
});

describe('a fault', () => {
  it.each([
    ['findings.yaml', 'kind: sign', 'kind: sing', 'yaml/unknown-word', 'Write "sign".'],
    ['findings.yaml', 'range: 25.0 to 43.0', 'range: 25.0-43.0', 'protocol/not-a-range', undefined],
    ['findings.yaml', 'limit: low-temperature,', 'limit: low-temprature,', 'protocol/unknown-limit', 'Write "low-temperature".'],
    ['findings.yaml', 'id: low, from: 32.0', 'id: low, from: 52.0', 'protocol/bands-out-of-order', undefined],
    ['findings.yaml', '  - finding: foul-liquor', '  - finding: uterine-infection', 'protocol/finding-twice', undefined],
    ['limits.yaml', 'fever-line: from-37.5', 'fever-lime: from-37.5', 'protocol/unknown-switch', 'Write "fever-line".'],
    ['limits.yaml', 'fever-line: from-37.5, from', 'fever-line: from-37.6, from', 'protocol/unknown-option', 'Write "from-37.5".'],
    ['conditions.yaml', 'danger-sign:', 'grunting:', 'condition/name-taken', undefined],
    ['classifications/20-temperature.yaml', 'rows: [TEMP-05, PSBI-08]', 'rows: [TEMP-55, PSBI-08]', 'protocol/unknown-row', undefined],
    [
      'classifications/20-temperature.yaml',
      'advice.warm-actively',
      'advice.warm-activly',
      'protocol/unknown-advice',
      'Write "advice.warm-actively".',
    ],
    [
      'classifications/20-temperature.yaml',
      '{ treat: temperature is moderately-low, recheck',
      '{ treat: temperature is moderately-low, within',
      'protocol/wrong-time',
      undefined,
    ],
    ['classifications/20-temperature.yaml', 'recheck: PT1H', 'recheck: 1 hour', 'protocol/not-a-duration', undefined],
    ['classifications/20-temperature.yaml', 'rows: [TEMP-08]', 'row: [TEMP-08]', 'yaml/unknown-field', 'Write "rows".'],
    [
      'classifications/20-temperature.yaml',
      'classification: severe-hypothermia',
      'classification: mild-hypothermia',
      'protocol/classification-twice',
      undefined,
    ],
    [
      'classifications/20-temperature.yaml',
      '- { urgent: temperature-swings }',
      '- { soon: temperature-swings }',
      'protocol/rule-without-urgency',
      undefined,
    ],
    [
      'classifications/30-breathing-and-heart.yaml',
      '- { urgent: grunting }',
      '- { urgent: [grunting, slow-breathing is given] }',
      undefined,
      undefined,
    ],
    [
      'classifications/30-breathing-and-heart.yaml',
      '- { urgent: grunting }',
      '- { urgent: [grunting, grunting is given] }',
      'protocol/ring',
      undefined,
    ],
    ['needs.yaml', 'finding: heart-rate', 'finding: heart-rte', 'protocol/unknown-finding', 'Write "heart-rate".'],
    ['switches.yaml', 'switches:', 'switches: [', 'yaml/not-readable', undefined],
  ] as const)('in %s, "%s" written as "%s", is told as %s', (name, from, to, code, fix) => {
    const { diagnostics } = edited(name, from, to);
    if (code === undefined) {
      expect(diagnostics).toEqual([]);
      return;
    }
    const found = diagnostics.find((one) => one.code === code);
    expect(diagnostics.map((one) => one.code)).toContain(code);
    expect(found?.file).toBe(name);
    if (fix !== undefined) expect(found?.fix).toBe(fix);
  });

  it('is shown with its line, why it matters, and what to type', () => {
    const { diagnostics, text } = edited('conditions.yaml', '      - jittery', '      - jitery');
    const first = diagnostics.find((one) => one.code === 'condition/unknown-name');
    if (first === undefined) throw new Error('no diagnostic');
    const line = text.split('\n').findIndex((one) => one.includes('jitery')) + 1;
    expect(renderDiagnostic(first, text)).toBe(
      [
        `conditions.yaml:${line}:9  error  condition/unknown-name`,
        '  There is no finding, field or named condition "jitery".',
        `   ${line - 1} |       - [warmth-by-touch is not warm, temperature has no reading]`,
        ` > ${line} |       - jitery`,
        `       |         ^^^^^^`,
        `   ${line + 1} |       - cannot-be-consoled`,
        '  why  The rule could not be judged, and what it looks for would be missed.',
        '  fix  Write "jittery".',
      ].join('\n'),
    );
  });

  it('keeps what an author wrote: 012 is not 12 and NO is not false', () => {
    const { diagnostics } = edited('findings.yaml', 'options: [none, lip, palate]', 'options: [NO, lip, palate]');
    expect(diagnostics.map((one) => one.what)).toContain('There is no option of cleft "none".');
  });
});
