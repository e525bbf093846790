// `pipit schema`: the JSON Schemas of flows, protocol and wording, for an editor that completes and checks them; and of one file,
// what may be written at a place in it.

import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type Completion, completionsFor } from '../authoring/schemas/completions.ts';
import { schemaFor, schemaNamed, schemaNames } from '../authoring/schemas/schema-for.ts';

type Print = (line: string) => void;

/**
 * Prints all schemas by name, or writes them, or prints what may stand in a file.
 *
 * Takes    file: such as `flows/protocol/findings.yaml`. path: keys and indices down to the place, `findings 0 kind`.
 * Returns  the exit code: 0, or 1 when there is no such file or place.
 */
export function schema(file: string | undefined, path: readonly string[], into: string | undefined, print: Print): number {
  if (into !== undefined) return write(resolve(into), print);
  if (file !== undefined) return explain(file, path, print);
  print(JSON.stringify(Object.fromEntries(schemaNames.map((name) => [name, schemaNamed(name)])), null, 2));
  return 0;
}

function write(folder: string, print: Print): number {
  mkdirSync(folder, { recursive: true });
  for (const name of schemaNames) writeFileSync(join(folder, `${name}.schema.json`), `${JSON.stringify(schemaNamed(name), null, 2)}\n`);
  print(`${schemaNames.length} schemas are in ${folder}. The title of each says for which files it is.`);
  print(
    `One file, in any editor with a YAML language server, by its first line: # yaml-language-server: $schema=${folder}/flow.schema.json`,
  );
  print(`All at once, in the editor's settings under "yaml.schemas", a line for each: "${folder}/flow.schema.json": "flows/*.yaml"`);
  return 0;
}

function explain(file: string, path: readonly string[], print: Print): number {
  const found = schemaFor(file);
  if (found === null) {
    print(`There is no schema for "${file}". Write it from the top, such as flows/protocol/findings.yaml or locales/en/signs.yaml.`);
    return 1;
  }
  const steps = path.map((step) => (/^\d+$/.test(step) ? Number(step) : step));
  const { keys, values, keyNames, valueNames } = completionsFor(found, steps);
  const lines = [
    ...keys.map((key) => lineOf(key, key.needed ? 'needed' : 'key')),
    ...keyNames.map((name) => `<${name}> (key)`),
    ...values.map((value) => lineOf(value, 'value')),
    ...valueNames.map((name) => `<${name}> (value)`),
  ];
  if (lines.length === 0) {
    print(`The schema of ${file} says nothing of "${path.join(' ')}". Leave out the last name, and see what may stand there.`);
    return 1;
  }
  for (const line of lines) print(line);
  return 0;
}

function lineOf({ text, says }: Completion, kind: string): string {
  return `${text} (${kind})${says === '' ? '' : `  ${says}`}`;
}
