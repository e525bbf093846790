// Good text made a little wrong: letters lost, doubled, changed for ones that look alike, odd things put in. Files are changed by
// the line, with what YAML and tables can be hurt by. Next: targets/.

import type { Chance } from '../simulation/chance.ts';
import { digitIn, noise, oddity, prototypeNames, unseen } from './noise.ts';

/** Takes others: good texts of which a piece may be put in. */
export function mutate(text: string, chance: Chance, others: readonly string[] = []): string {
  let made = text;
  for (let times = chance.whole(1, 3); times > 0; times -= 1) made = mutateOnce(made, chance, others);
  return made;
}

function mutateOnce(text: string, chance: Chance, others: readonly string[]): string {
  const from = chance.whole(0, text.length);
  const to = chance.whole(from, Math.min(text.length, from + 6));
  const [before, part, after] = [text.slice(0, from), text.slice(from, to), text.slice(to)];
  switch (chance.whole(0, 8)) {
    case 0:
      return before + after;
    case 1:
      return before + part.repeat(chance.is(0.05) ? chance.whole(50, 1_500) : 2) + after;
    case 2:
      return before + oddity(chance) + after;
    case 3:
      return text.replace(/\d/g, (digit) => (chance.is(0.5) ? digitIn(chance, Number(digit)) : digit));
    case 4:
      return [...text].map((letter) => (chance.is(0.3) ? letter + chance.pick(unseen) : letter)).join('');
    case 5:
      return others.length === 0 ? before + noise(chance) + after : `${before}${chance.is(0.5) ? ' ' : ''}${chance.pick(others)}${after}`;
    case 6:
      return text.replace(/\d+/g, (digits) => (chance.is(0.5) ? String(chance.whole(0, 10 ** chance.whole(1, 5))) : digits));
    case 7:
      return chance.is(0.5)
        ? text.toUpperCase()
        : text
            .split(/\s+/)
            .reverse()
            .join(chance.pick([' ', '', ';', '\n', '\u00a0']));
    default:
      return before + part.replace(/[\d\s.]/g, () => chance.pick([...' .,*/+-:=;\u00a0\u202f'])) + after;
  }
}

/** What a line of YAML may be made into, besides what any text may. */
const yamlHurts: readonly ((line: string, chance: Chance) => string)[] = [
  (line) => `  ${line}`,
  (line) => line.replace(/^ {2}/, ''),
  (line) => line.replace(/^( *)/, '$1\t'),
  (line) => line.replace(/: .*/, ':'),
  (line) => line.replace(/: ?/, ': &a '),
  (line) => line.replace(/: .*/, ': *a'),
  (line) => line.replace(/: ?/, ': !!js/function '),
  (line) => line.replace(/: .*/, ': |'),
  (line) => line.replace(/: .*/, ': [[[[{a: [}'),
  (line) => line.replace(/: (.*)/, ': "$1'),
  (line) => line.replace(/: (.*)/, ": '$1''"),
  (line) => line.replace(/^( *)(- )?/, '$1$2<<: '),
  (line) => line.replace(/^( *)/, '$1? '),
  (line) => `${line}\n---\n${line}`,
  (line) => `%YAML 9.9\n${line}`,
  (line, chance) => line.replace(/[\w-]+(?=:)/, chance.pick(prototypeNames)),
  (line, chance) => line.replace(/: .*/, `: ${chance.pick(prototypeNames)}`),
  (line, chance) =>
    line.replace(
      /: .*/,
      `: ${chance.pick(['0', '-1', '1e400', '012', '0x1f', 'NO', 'null', '~', '.inf', '2026-02-30', '99999999999999999999'])}`,
    ),
  (line, chance) => line.replace(/: .*/, `: ${chance.pick(['', '{', '', '['])}${noise(chance)}`),
];

/** What a line of a table may be made into. */
const tableHurts: readonly ((line: string, chance: Chance) => string)[] = [
  (line) => line.replace(/,([^,]*)/, ',"$1'),
  (line) => line.replace(/,([^,]*)/, ',"$1"'),
  (line) => line.replace(/,([^,]*)/, ',"a\nb"'),
  (line) => line.replace(/,([^,]*)/, ',"say ""$1"""'),
  (line) => line.replaceAll(',', ';'),
  (line) => line.replaceAll(',', '\t'),
  (line) => `${line},,`,
  (line) => line.replace(/,[^,]*$/, ''),
  (line) => `\ufeff${line}`,
  (line) => `${line}\r`,
  (line) => `sep=;\n${line}`,
  (line, chance) => line.replace(/,[^,]*/, `,${chance.pick(['=1+1', '+254', '-5', '@SUM(A1)', '\t=1', "'=1", '=HYPERLINK("x")'])}`),
  (line, chance) => line.replace(/,[^,]*/, `,${chance.pick(prototypeNames)}`),
  (line, chance) => line.replace(/,[^,]*/, `,${noise(chance)}`),
];

export type FileKind = 'yaml' | 'table';

/** A file with a few of its lines lost, doubled, moved, exchanged or hurt. */
export function mutateFile(text: string, kind: FileKind, chance: Chance): string {
  let lines = text.split('\n');
  const hurts = kind === 'yaml' ? yamlHurts : tableHurts;
  for (let times = chance.is(0.6) ? 1 : chance.whole(2, 4); times > 0; times -= 1) {
    const at = chance.whole(0, Math.max(0, lines.length - 1));
    const line = lines[at] ?? '';
    const put = (...instead: readonly string[]): string[] => [...lines.slice(0, at), ...instead, ...lines.slice(at + 1)];
    const way = chance.whole(0, 9);
    if (way === 0) lines = put();
    else if (way === 1) lines = put(line, line);
    else if (way === 2) lines = put(chance.pick(lines));
    else if (way === 3) lines = put(line, chance.pick(lines));
    else if (way <= 5) lines = put(mutate(line, chance, lines.slice(0, 20)));
    else lines = put(chance.pick(hurts)(line, chance));
  }
  return lines.join('\n');
}

/** Whole files of nothing but trouble. */
export function hostileYaml(chance: Chance): string {
  const depth = chance.is(0.1) ? chance.whole(1_000, 60_000) : chance.whole(1, 300);
  switch (chance.whole(0, 6)) {
    case 0: {
      const lines = Array.from(
        { length: 12 },
        (_, at) => `a${at + 1}: &a${at + 1} [${Array.from({ length: 9 }, () => `*a${at}`).join(', ')}]`,
      );
      return ['a0: &a0 [lol, lol, lol]', ...lines].join('\n');
    }
    case 1:
      return chance.pick(['[', '{a: ', '- ', '? ', '{', '[{', '!!seq [', '&a [', '"']).repeat(depth);
    case 2:
      return Array.from({ length: Math.min(depth, 900) }, (_, at) => `${' '.repeat(at)}a:`).join('\n');
    case 3:
      return `&a [*a]\n${'# '.repeat(depth)}`;
    case 4:
      return `${chance.pick(['flow', 'steps', 'messages', 'language'])}: &x\n  <<: *x\n  __proto__: *x`;
    case 5:
      return `a: ${chance.pick(['"', "'", '|\n ', '>-\n '])}${noise(chance).repeat(chance.whole(1, 40))}`;
    default:
      return noise(chance);
  }
}
