// Every diagnostic is shown by an example: the slip gives exactly that code where it was made, and the mended file gives none.
// The examples are the tables beside; the last test asks for one for each code that src/authoring can say.

import { describe, expect, it } from 'vitest';
import { codesOf, marked } from '../marked-yaml.ts';
import { codesSaid } from './codes-said.ts';
import { examples } from './examples.ts';
import { editable, faultsIn, wholeOf } from './read-example.ts';

/** The file before the slip, with it, and where it is pointed at; a whole file when nothing is edited. */
function textsOf({ code, table, file, find, invalid, valid, at }: (typeof examples)[number]) {
  if (file === undefined) return { file: 'flows/try.yaml', ...placed(wholeOf(table, invalid), at), right: wholeOf(table, valid ?? '') };
  const shipped = editable.get(file);
  if (find === undefined) return { file, ...placed(invalid, at), right: valid ?? shipped ?? '' };
  if (shipped === undefined || !shipped.includes(find)) throw new Error(`The example of ${code}: ${file} does not hold "${find}".`);
  return {
    file,
    ...placed(
      shipped.replace(find, () => invalid),
      at,
    ),
    right: shipped.replace(find, () => valid ?? find),
  };
}

function placed(text: string, at: string | undefined) {
  if (at === undefined) return text.includes('«') ? marked(text) : { text, range: undefined };
  const plain = at.replace(/[«»]/g, '');
  if (!text.includes(plain)) throw new Error(`The edited file does not hold "${plain}".`);
  return marked(text.replace(plain, () => at));
}

describe('a diagnostic', () => {
  it.each(examples.map((one) => ({ ...one, what: one.shows ?? one.invalid })))('$table: $code, $what', async (example) => {
    const { file, text, range, right } = textsOf(example);
    const faults = await faultsIn(example.table, file, text);
    expect([...new Set(codesOf(faults))].sort()).toEqual([example.code, ...(example.also ?? [])].sort());
    const fault = faults.find(({ code }) => code === example.code);
    expect(fault?.severity).toBe(example.severity ?? 'error');
    if (range !== undefined) expect(fault).toMatchObject({ range });
    if (example.fix !== undefined) expect(fault?.fix).toContain(example.fix);
    for (const said of [fault?.what, fault?.why, fault?.fix]) expect(said).toMatch(/\S/);
    expect(codesOf(await faultsIn(example.table, file, right))).toEqual([]);
  });

  it('is shown for each code that can be said', () => {
    const shown = new Set(examples.map(({ code }) => code));
    expect(codesSaid().filter((code) => !shown.has(code))).toEqual([]);
    expect(shown.size).toBeGreaterThanOrEqual(40);
  });

  it('is shown for a reason that is written down once a code', () => {
    const silent = [...new Set(examples.map(({ code }) => code))].filter(
      (code) => !examples.some((one) => one.code === code && one.shows !== undefined),
    );
    expect(silent).toEqual([]);
  });
});
