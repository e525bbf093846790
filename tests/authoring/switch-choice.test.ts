// What the programme chooses by a switch holds for its babies, and changes nothing of what is proved: reference cases that choose no
// option are judged as the guideline has it, and each option has cases of its own.

import { describe, expect, it } from 'vitest';
import { readProtocol } from '../../src/authoring/read-protocol.ts';
import { filesOf } from '../../src/cli/load-published.ts';
import { prove } from '../../src/cli/prove.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import { defaultProtocol, flowsFolder } from '../support/default-protocol.ts';

const shipped = filesOf({ flows: flowsFolder, locales: `${flowsFolder}/../locales` });
const switchesFile = 'flows/protocol/switches.yaml';
const text = shipped.find(({ name }) => name === switchesFile)?.text ?? '';

/** The shipped files with this option chosen. */
function choosing(id: string, option: string) {
  const options = new RegExp(`(- switch: ${id}\n    options: .*\n)`);
  expect(text).toMatch(options);
  return shipped.map((file) => (file.name === switchesFile ? { ...file, text: text.replace(options, `$1    chosen: ${option}\n`) } : file));
}

const others = [...defaultProtocol.switches.values()].flatMap(({ id, options }) => options.slice(1).map((option) => [id, option] as const));
const warm = { findings: { temperature: 37.5 } };

describe('an option that the programme has chosen', () => {
  it.each(others)('of %s, %s, holds where a case chooses none, and leaves the guideline as it was', (id, option) => {
    const files = choosing(id, option).filter(({ name }) => name.startsWith('flows/protocol/'));
    const own = files.map(({ name, text }) => ({ name: name.slice('flows/protocol/'.length), text }));
    const [programme, guideline] = [readProtocol(own), readProtocol(own, '', 'guideline')];
    if (programme.kind !== 'protocol' || guideline.kind !== 'protocol') return expect.unreachable('The protocol cannot be read.');
    expect(programme.protocol.switches.get(id)?.options[0]).toBe(option);
    expect(guideline.protocol).toEqual({ ...defaultProtocol, growth: undefined });
  });

  it('is what babies are judged by, and check has nothing to say against it', () => {
    const { diagnostics, edition } = prove(choosing('fever-line', 'from-37.5'));
    expect(diagnostics).toEqual([]);
    expect(edition && interpret(edition.protocol, warm).urgency).toBe('urgent');
    expect(interpret(defaultProtocol, warm).classifications).toEqual([]);
  });

  it('must be one of the options', () => {
    expect(prove(choosing('fever-line', 'from-37')).diagnostics).toMatchObject([{ code: 'yaml/unknown-word', fix: 'Write "from-37.5".' }]);
  });
});
