// Puts a step as a question: its title, its options by digit, and how to answer. Words come from the catalogue by key.

import type { FindingValue } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import { type Mark, type MarkStep, moreDigit, type ReadField, type Step } from './flow.ts';
import type { Gathered } from './gather.ts';
import type { Standing } from './lookup.ts';
import { readings } from './phrases.ts';
import { type Option, type Question, type Say, say } from './reply.ts';

/** Fields of a read step that nothing is held for yet. */
export function openFields(step: Step, standing: Pick<Standing, 'gathered'>): readonly ReadField[] {
  return step.kind === 'read' ? step.fields.filter((field) => !standing.gathered.answered.has(field.of)) : [];
}

/** By step; kept as long as the book is. */
const regionQuestions = new WeakMap<Book, Map<MarkStep, Question>>();

/** Of a region: always the same, whatever is known. */
export function regionQuestion(step: MarkStep, book: Book): Question {
  const ofBook = regionQuestions.get(book) ?? new Map<MarkStep, Question>();
  regionQuestions.set(book, ofBook);
  const question = ofBook.get(step) ?? { title: say(`ask.${step.id}.title`), options: markOptions(step, book), tail: [] };
  ofBook.set(step, question);
  return question;
}

export function questionFor(step: Step, gathered: Gathered, book: Book): Question {
  const title = say(`ask.${step.id}.title`);
  switch (step.kind) {
    case 'read': {
      const wanted = openFields(step, { gathered }).filter((field) => !field.optional);
      const isPart = wanted.length < step.fields.filter((field) => !field.optional).length;
      if (isPart) return partQuestion(step.id, wanted, book);
      const [only] = step.fields;
      const options =
        step.fields.length === 1 && only !== undefined
          ? only.options.map((option, at) => optionLine(only.of, option, at, step.id, book))
          : [];
      return { title, options, tail: [] };
    }
    case 'again': {
      const held = gathered.known.get(step.of) ?? null;
      return { title: say(`ask.${step.id}.title`, { value: readings(held) }), options: [], tail: [] };
    }
    case 'mark':
      return regionQuestion(step, book);
    case 'result':
      return { title, options: [], tail: [] };
  }
}

/**
 * Only what is still open of a step that was answered in part: "time born, grams? Like 0430 3100. Not known: -". A step where "-" says
 * something else has a sentence of its own for it, and one that wants a field in another form names it so.
 */
function partQuestion(step: string, wanted: readonly ReadField[], book: Book): Question {
  const named = (of: string, under: string): Say => say(book.has(`${under}.${step}.${of}`) ? `${under}.${step}.${of}` : `${under}.${of}`);
  const fields = wanted.map(({ of }) => named(of, 'fields'));
  const example = wanted.map(({ of }) => named(of, 'examples'));
  const own = `ask.${step}.part`;
  return { title: say(book.has(own) ? own : 'ask.part', { fields, example: say('ask.example', { example }) }), options: [], tail: [] };
}

function optionLine(of: string, option: string, at: number, step: string, book: Book): Option {
  return { digit: String(at + 1), label: labelOf(step, { of, value: option }, book) };
}

function markOptions(step: MarkStep, book: Book): Option[] {
  const none: Option = { digit: '0', label: say(`ask.${step.id}.none`) };
  const marks = step.marks.map((mark, at): Option => ({ digit: String(at + 1), label: markLabel(step.id, mark, book) }));
  const more: Option[] = step.more === undefined ? [] : [{ digit: moreDigit, label: say('ask.more') }];
  return [none, ...marks, ...more];
}

function markLabel(step: string, mark: Mark, book: Book): Say {
  return mark.sets === null ? say(`marks.${step}.${mark.opens ?? mark.id}`) : labelOf(step, mark.sets, book);
}

/** A shorter wording for this question where the catalogue has one, else the finding's own. */
function labelOf(step: string, { of, value }: { of: string; value: FindingValue }, book: Book): Say {
  const key = typeof value === 'string' ? `${of}.${value}` : of;
  return say(book.has(`marks.${step}.${key}`) ? `marks.${step}.${key}` : `signs.${key}`);
}
