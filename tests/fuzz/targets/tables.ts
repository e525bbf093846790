// Tables: the roster's four, as spreadsheets write and break them, and the published growth tables. A roster that is accepted is written
// and read back the same, and no cell of it begins a formula.

import { readFileSync } from 'node:fs';
import { type Diagnostic, renderDiagnostic } from '../../../src/authoring/diagnostic.ts';
import { growthTableFiles, readGrowthTables } from '../../../src/authoring/read-growth-tables.ts';
import { type RosterTables, readRoster } from '../../../src/authoring/read-roster.ts';
import { writeRoster } from '../../../src/authoring/write-roster.ts';
import { fileLimit } from '../file-limit.ts';
import { mutateFile } from '../mutate.ts';
import { noise } from '../noise.ts';
import type { Input, Outcome, Target } from '../target.ts';

const flows = new URL('../../../flows/', import.meta.url);
const textOf = (path: string): string => readFileSync(new URL(path, flows), 'utf8');
const tables = ['facilities', 'people', 'rota', 'leave'] as const;
const demo = tables.map((name) => textOf(`demo/${name}.csv`));
const growth = new Map(growthTableFiles.map((name) => [name, textOf(`reference/${name}`)]));

function takeRoster(texts: Input): Outcome {
  const sources = Object.fromEntries(
    tables.map((name, at) => [name, { name: `${name}.csv`, text: texts[at] ?? '' }]),
  ) as unknown as RosterTables;
  const faults: Diagnostic[] = [];
  const data = readRoster(sources, (fault) => faults.push(fault));
  for (const fault of faults) renderDiagnostic(fault, Object.values(sources).find(({ name }) => name === fault.file)?.text);
  if (faults.some(({ severity }) => severity === 'error')) return 'refused';
  const out = writeRoster(data);
  const again: Diagnostic[] = [];
  const back = readRoster(
    Object.fromEntries(tables.map((name) => [name, { name: `${name}.csv`, text: out[name] }])) as unknown as RosterTables,
    (fault) => again.push(fault),
  );
  if (JSON.stringify(back) !== JSON.stringify(data))
    throw new Error('A roster that was accepted is not the same when it was written and read back.');
  const formula = Object.values(out).find((text) => /(^|[,\n])"?[=@\t\r]/.test(text));
  if (formula !== undefined) throw new Error(`A cell that was written begins a formula: ${formula}`);
  return 'accepted';
}

export const tabled: readonly Target[] = [
  {
    name: 'tables/roster',
    share: 6,
    limitMilliseconds: fileLimit(() => takeRoster(demo)),
    draw: (chance) => {
      const at = chance.whole(0, tables.length - 1);
      return demo.map((text, table) => {
        if (table !== at && !chance.is(0.1)) return text;
        return chance.is(0.03) ? noise(chance) : mutateFile(text, 'table', chance);
      });
    },
    take: takeRoster,
  },
  {
    name: 'tables/growth',
    share: 1,
    limitMilliseconds: fileLimit(() => readGrowthTables(growth)),
    draw: (chance) => {
      const name = chance.pick(growthTableFiles);
      return [name, chance.is(0.05) ? noise(chance) : mutateFile(growth.get(name) ?? '', 'table', chance)];
    },
    take: ([name = '', text = '']) => {
      const read = readGrowthTables(new Map([...growth, [name, text]]));
      if (read.kind === 'tables') return 'accepted';
      for (const diagnostic of read.diagnostics) renderDiagnostic(diagnostic, text);
      return 'refused';
    },
  },
];
