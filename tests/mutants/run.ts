// `npm run mutants`: edits the shipped files in many harmful ways, and lists what `check` does not refuse. `-- --seed 7 --of-each 20`.

import { parseArgs } from 'node:util';
import { sourcesIn } from '../../src/cli/load-files.ts';
import { seededRandom } from '../support/end-to-end-seed.ts';
import { drawEdits } from './edits.ts';
import { openJudge } from './judge.ts';

const { values } = parseArgs({ options: { seed: { type: 'string', default: '1' }, 'of-each': { type: 'string', default: '20' } } });
const seed = Number(values.seed);
const root = new URL('../../', import.meta.url).pathname;
const sources = [...sourcesIn(`${root}flows`), ...sourcesIn(`${root}locales`)];
const judge = await openJudge(seed);
const counts = new Map<string, number>();
for (const edit of drawEdits(sources, seededRandom(seed), Number(values['of-each']))) {
  const verdict = await judge.judge(edit);
  const name = `${edit.kind}: ${verdict.kind}`;
  counts.set(name, (counts.get(name) ?? 0) + 1);
  if (verdict.kind === 'refused' || verdict.kind === 'warned') continue;
  const how = verdict.kind === 'harmless' ? '' : `\n    ${verdict.how.slice(0, 600)}`;
  process.stdout.write(
    `${verdict.kind}: ${edit.kind}\n    ${edit.file}:${edit.line}\n  - ${edit.before.trim()}\n  + ${edit.after.trim()}${how}\n`,
  );
}
judge.remove();
for (const [name, count] of [...counts].sort()) process.stdout.write(`${String(count).padStart(4)}  ${name}\n`);
