// Harmful edits of the shipped files, one at a time, drawn from a seed: the slips of a hand in an editor. An edit is one line changed or
// taken out, or one block taken out. Next: judge.ts, which says what became of it.

import type { SourceFile } from '../../src/authoring/yaml-source.ts';

export interface Edit {
  readonly kind: string;
  readonly file: string;
  /** From 1. */
  readonly line: number;
  readonly before: string;
  readonly after: string;
  /** The whole file as edited. */
  readonly text: string;
}

interface Kind {
  readonly name: string;
  readonly files: RegExp;
  /** The line as edited, in each way that there is; null: it is taken out. */
  readonly edits: (line: string) => readonly (string | null)[];
  /** True: with the line goes all that stands deeper below it. */
  readonly takesBlock?: true;
  /** True: the block of this line and the next one like it change places. */
  readonly swapsBlocks?: true;
}

const isRule = (line: string): boolean => /- \{ (urgent|refer|treat|routine):/.test(line);
const lower: Readonly<Record<string, string>> = { urgent: 'refer', refer: 'treat', treat: 'routine' };

/** Each match of the pattern replaced, one at a time. */
function eachMatch(line: string, pattern: RegExp, replace: (...groups: string[]) => string | null): string[] {
  return [...line.matchAll(pattern)].flatMap((match) => {
    const by = replace(...(match as unknown as string[]));
    return by === null ? [] : [line.slice(0, match.index) + by + line.slice(match.index + match[0].length)];
  });
}

/** Of a list in brackets, each element left out once. */
function withoutEach(line: string, pattern: RegExp): string[] {
  return eachMatch(line, pattern, (whole, inside = '') => {
    const items = inside.split(', ');
    return items.length < 2 || /[[\]{}]/.test(inside) ? null : whole.replace(inside, items.slice(1).join(', '));
  }).concat(
    eachMatch(line, pattern, (whole, inside = '') => {
      const items = inside.split(', ');
      return items.length < 2 || /[[\]{}]/.test(inside) ? null : whole.replace(inside, items.slice(0, -1).join(', '));
    }),
  );
}

const moved = (value: string, by: 1 | -1): string => {
  const decimals = value.split('.')[1]?.length ?? 0;
  return (Number(value) + by * 10 ** -decimals).toFixed(decimals);
};
const movedBoth = (line: string, pattern: RegExp): string[] => [
  ...eachMatch(line, pattern, (_whole, before = '', value = '') => before + moved(value, 1)),
  ...eachMatch(line, pattern, (_whole, before = '', value = '') => before + moved(value, -1)),
];

/** Of a list in brackets that may hold others, each element left out once. */
function withoutEachPart(line: string, before: RegExp): string[] {
  return [...line.matchAll(before)].flatMap((match) => {
    const from = match.index + match[0].length;
    const commas: number[] = [from - 1];
    let depth = 0;
    let at = from;
    for (; at < line.length && depth >= 0; at++) {
      const sign = line[at] ?? '';
      if ('[{'.includes(sign)) depth++;
      else if (']}'.includes(sign)) depth--;
      else if (sign === ',' && depth === 0) commas.push(at);
    }
    const ends = [...commas.slice(1), at - 1];
    if (ends.length < 2) return [];
    return commas.map((comma, n) => {
      const [begin, end] = n === 0 ? [from, (ends[0] ?? at) + 2] : [comma, ends[n] ?? at];
      return line.slice(0, begin) + line.slice(end);
    });
  });
}

const classifications = /^flows\/protocol\/classifications\//;
const protocol = /^flows\/protocol\/(classifications\/|conditions|findings|limits)/;
const flows = /^flows\/[a-z-]+\.yaml$/;
const words = /^locales\/(en|fr|sw|hi)\//;

export const kinds: readonly Kind[] = [
  { name: 'a rule is taken out', files: classifications, edits: (line) => (isRule(line) ? [null] : []) },
  {
    name: 'a rule is less urgent',
    files: classifications,
    edits: (line) =>
      isRule(line) ? eachMatch(line, /(?<=- \{ )(urgent|refer|treat)(?=:)/g, (_whole, urgency = '') => lower[urgency] ?? null) : [],
  },
  {
    name: 'a sign is taken out of a rule',
    files: classifications,
    edits: (line) => (isRule(line) ? withoutEach(line, /any: \[([^\]]+)\]/g) : []),
  },
  {
    name: 'a comparison takes its limit in or leaves it out',
    files: protocol,
    edits: (line) =>
      line.trim().startsWith('#')
        ? []
        : eachMatch(line, / (<=|>=|<|>) /g, (_whole, sign = '') => ` ${sign.length === 2 ? sign[0] : `${sign}=`} `),
  },
  {
    name: 'a limit is moved by one step',
    files: protocol,
    edits: (line) =>
      line.trim().startsWith('#')
        ? []
        : [...movedBoth(line, /((?:from|over): )(\d+(?:\.\d+)?)/g), ...movedBoth(line, /( (?:<|>|<=|>=) )(-?\d+(?:\.\d+)?)/g)],
  },
  { name: 'a step is taken out', files: flows, takesBlock: true, edits: (line) => (/^ {2}- step: /.test(line) ? [null] : []) },
  { name: 'a mark is taken out', files: flows, edits: (line) => (/^ {6}- [a-z-]+(: [a-z-]+)?$/.test(line) ? [null] : []) },
  {
    name: 'a field is taken out',
    files: flows,
    edits: (line) => (/^ {4}read: /.test(line) ? withoutEach(line, /read: \[([^\]]+)\]/g) : []),
  },
  {
    name: 'a sign is taken out of a rule with nested parts',
    files: classifications,
    edits: (line) => (/any: \[.*[[{]/.test(line) && !line.trim().startsWith('#') ? withoutEachPart(line, /any: \[/g) : []),
  },
  {
    name: 'a sign is taken out of a shared word',
    files: /^flows\/protocol\/(conditions|needs)\.yaml$/,
    edits: (line) => (/^ {6,}- [^{]/.test(line) ? [null] : []),
  },
  {
    name: 'a guard asks for fewer',
    files: flows,
    edits: (line) => [...(/^ {8}- /.test(line) ? [null] : []), ...withoutEachPart(line, /^ {6}any: \[/g)],
  },
  {
    name: 'a guard asks for another option',
    files: flows,
    edits: (line) =>
      eachMatch(line, /(?<=only-if: sex is )(girl|boy)/g, (sex) => (sex === 'girl' ? 'boy' : 'girl')).concat(
        eachMatch(line, /(?<=only-if: .* is )[a-z-]+ or (?=[a-z-]+$)/g, () => ''),
        eachMatch(line, /(?<=only-if: )([a-z-]+)(?= is given$)/g, (of) => `not ${of}`),
      ),
  },
  { name: 'two guarded steps change places', files: flows, swapsBlocks: true, edits: (line) => (/^ {2}- step: /.test(line) ? [line] : []) },
  {
    name: 'advice of a classification is taken out',
    files: classifications,
    edits: (line) => withoutEachPart(line, /^ {4}advice: \[/g),
  },
  {
    name: 'advice of a classification is replaced',
    files: classifications,
    edits: (line) =>
      eachMatch(line, /(?<=^ {4}advice: \[[^\]]*)advice\.[a-z-]+/g, (key) => (key === 'advice.keep-warm' ? null : 'advice.keep-warm')),
  },
  { name: 'a message is taken out', files: words, edits: (line) => (/^ {4,}[a-z0-9-]+: "/.test(line) ? [null] : []) },
  { name: 'a value is taken out of a message', files: words, edits: (line) => eachMatch(line, /\{[a-z]+\} ?/g, () => '') },
  {
    name: 'a message grows by a whole text',
    files: words,
    edits: (line) => eachMatch(line, /^( {4,}[a-z0-9-]+: ".*)"$/g, (_whole, before = '') => `${before}${' more'.repeat(40)}"`),
  },
];

/** So many edits of each kind, drawn evenly over the lines that it can change; the same seed gives the same. */
export function drawEdits(sources: readonly SourceFile[], random: () => number, ofEach: number): Edit[] {
  return kinds.flatMap((kind) => {
    const all = sources.filter(({ name }) => kind.files.test(name)).flatMap((source) => editsOf(kind, source));
    const drawn: Edit[] = [];
    while (drawn.length < ofEach && all.length > 0) drawn.push(...all.splice(Math.floor(random() * all.length), 1));
    return drawn;
  });
}

function editsOf(kind: Kind, { name, text }: SourceFile): Edit[] {
  const lines = text.split('\n');
  if (kind.swapsBlocks === true) return swapsOf(kind, name, lines);
  return lines.flatMap((before, at) =>
    kind.edits(before).map((after): Edit => {
      const until = after === null && kind.takesBlock === true ? blockEnd(lines, at) : at + 1;
      const edited = [...lines.slice(0, at), ...(after === null ? [] : [after]), ...lines.slice(until)].join('\n');
      return { kind: kind.name, file: name, line: at + 1, before, after: after ?? '', text: edited };
    }),
  );
}

/** Neighbouring steps of which both have a guard. */
function swapsOf(kind: Kind, file: string, lines: readonly string[]): Edit[] {
  const starts = lines.flatMap((line, at) => (kind.edits(line).length > 0 ? [at] : []));
  return starts.flatMap((at, n): Edit[] => {
    const next = starts[n + 1];
    if (next === undefined) return [];
    const end = blockEnd(lines, next);
    const [one, other] = [lines.slice(at, next), lines.slice(next, end)];
    if (![one, other].every((step) => step.some((line) => line.startsWith('    only-if:')))) return [];
    const text = [...lines.slice(0, at), ...other, ...(other.at(-1) === '' ? [] : ['']), ...one, ...lines.slice(end)].join('\n');
    return [{ kind: kind.name, file, line: at + 1, before: one[0] ?? '', after: other[0] ?? '', text }];
  });
}

function blockEnd(lines: readonly string[], at: number): number {
  const depth = (line: string): number => line.length - line.trimStart().length;
  const next = lines.findIndex((line, n) => n > at && line.trim() !== '' && depth(line) <= depth(lines[at] ?? ''));
  return next === -1 ? lines.length : next;
}
