// What a phone sends, read as a number, a time, weeks, a weight, marks or a whole report, in every language: each reading is one of the
// four that there are, lies within its range, and quotes no more than a text can hold.

import type { FindingValue } from '../../../src/clinical/protocol.ts';
import { codeIn } from '../../../src/dialog/code-in.ts';
import { commandOf } from '../../../src/dialog/commands.ts';
import type { ReadField } from '../../../src/dialog/flow.ts';
import { readAnswer } from '../../../src/dialog/read-answer.ts';
import { readField } from '../../../src/dialog/read-field.ts';
import { takeReported } from '../../../src/dialog/readings/reported.ts';
import { tokens } from '../../../src/dialog/readings/tokens.ts';
import type { Read } from '../../../src/dialog/readings/words.ts';
import { book, caller, morning } from '../../properties/any-dialog.ts';
import type { Chance } from '../../simulation/chance.ts';
import { anAmount, aReport, aTime, marks, messages, weeks } from '../good-messages.ts';
import { mutate } from '../mutate.ts';
import { noise } from '../noise.ts';
import { type Input, type Outcome, type Target, usualLimitMilliseconds } from '../target.ts';

const languages = book.languages;
const labels = languages.flatMap(({ words }) => [...words.labels.keys(), ...words.regions.keys(), ...words.signs.keys()]);
const numbers = [...book.findings.values()].filter((finding) => finding.kind === 'number' || finding.kind === 'count').map(({ id }) => id);
const longestQuote = 40;

/** Mostly good text made a little wrong, some of it good as it is, some nothing but noise. */
function anyText(chance: Chance, good: (chance: Chance) => string): string {
  const kind = chance.next();
  if (kind < 0.15) return noise(chance);
  return kind < 0.45 ? good(chance) : mutate(good(chance), chance, messages);
}

/** What every reading promises. Errors: it does not keep it. */
function hold(read: Read<FindingValue>, of: string, pieces: readonly string[]): Outcome {
  if (read.kind === 'refused') {
    const tooLong = Object.values(read.reason.values).find((value) => typeof value === 'string' && value.length > longestQuote);
    if (tooLong !== undefined) throw new Error(`The refusal quotes ${String(tooLong).length} letters.`);
    return 'refused';
  }
  if (read.used < 1 || read.used > pieces.length) throw new Error(`It used ${read.used} of ${pieces.length} pieces.`);
  if (read.kind === 'not-known') return 'accepted';
  if (typeof read.value === 'number' && !Number.isFinite(read.value)) throw new Error(`It read ${read.value}.`);
  const finding = book.findings.get(of);
  if (finding?.kind === 'number' || finding?.kind === 'count') {
    const isWithin = typeof read.value === 'number' && read.value >= finding.low && read.value <= finding.high;
    if (!isWithin) throw new Error(`It read ${read.value}, and ${of} is from ${finding.low} to ${finding.high}.`);
  }
  if (of === 'born' && Number(read.value) > morning / 60_000) throw new Error('It read a time that is still to come.');
  return 'accepted';
}

/** One field read from the front of a message, with every language's words. */
function field(name: string, share: number, fields: readonly string[], good: (chance: Chance, of: string) => string): Target {
  return {
    name: `readings/${name}`,
    share,
    limitMilliseconds: usualLimitMilliseconds,
    draw: (chance) => {
      const of = chance.pick(fields);
      return [of, chance.pick(languages).tag, anyText(chance, (one) => good(one, of))];
    },
    take: ([of = '', tag, text = '']) => {
      const { words } = languages.find((one) => one.tag === tag) ?? languages[0]!;
      const pieces = tokens(text, words);
      return hold(readField(of, optionsOf(of), pieces, { book, words, caller, now: morning }), of, pieces);
    },
  };
}

function amountOf(chance: Chance, of: string): string {
  const finding = book.findings.get(of);
  return finding?.kind === 'number' || finding?.kind === 'count' ? anAmount(chance, finding.low, finding.high) : anAmount(chance);
}

function optionsOf(of: string): readonly string[] {
  const finding = book.findings.get(of);
  return finding?.kind === 'choice' ? finding.options : [];
}

const steps = [...book.flows.values()].flatMap((flow) => flow.steps.map((step) => ({ id: `${flow.id} ${step.id}`, step })));

function takeReport([at, tag, text = '']: Input): Outcome {
  const { words } = languages.find((one) => one.tag === tag) ?? languages[0]!;
  const { step } = steps.find(({ id }) => id === at) ?? steps[0]!;
  const open: readonly ReadField[] = step.kind === 'read' ? step.fields : [];
  const pieces = tokens(text, words);
  const reported = takeReported(pieces, words, () => 'apart');
  const taken = readAnswer(step, open, reported.rest, { book, words, caller, now: morning });
  for (const { values } of taken.refusals) {
    const tooLong = Object.values(values).find((value) => typeof value === 'string' && value.length > longestQuote);
    if (tooLong !== undefined) throw new Error(`The refusal quotes ${String(tooLong).length} letters.`);
  }
  for (const [of, value] of Object.entries({ ...taken.values, ...taken.doubts }))
    if (value !== null) hold({ kind: 'read', value, used: pieces.length }, of, pieces);
  const isAnyTaken = Object.keys({ ...taken.values, ...taken.doubts, ...reported.signs }).length > 0 || taken.marks !== undefined;
  return isAnyTaken ? 'accepted' : 'refused';
}

export const readings: readonly Target[] = [
  field('number', 250, numbers, amountOf),
  field('time', 150, ['born'], aTime),
  field('weeks', 60, ['gestation'], weeks),
  field('weight', 80, ['weight', 'birth-weight'], (chance) => (chance.is(0.7) ? anAmount(chance, 400, 6_000) : anAmount(chance, 0, 6))),
  field(
    'choice',
    40,
    ['sex', 'card', ...[...book.findings.values()].filter(({ kind }) => kind === 'choice').map(({ id }) => id)],
    (chance) => `${chance.whole(0, 5)}`,
  ),
  {
    name: 'readings/report',
    share: 130,
    limitMilliseconds: usualLimitMilliseconds,
    draw: (chance) => [
      chance.pick(steps).id,
      chance.pick(languages).tag,
      anyText(chance, (one) => (one.is(0.2) ? marks(one) : aReport(one, labels))),
    ],
    take: takeReport,
  },
  {
    name: 'readings/command',
    share: 60,
    limitMilliseconds: usualLimitMilliseconds,
    draw: (chance) => [anyText(chance, (one) => `${one.pick(messages)}${one.is(0.3) ? ` ${one.pick(messages)}` : ''}`)],
    take: ([text = '']) => {
      const command = commandOf(text, languages);
      const coded = codeIn(text);
      if (coded !== null && !/^[2-9][A-Z]{2}$/.test(coded.code)) throw new Error(`It read the code "${coded.code}".`);
      return command === null && coded === null ? 'refused' : 'accepted';
    },
  },
];
