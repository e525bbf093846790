// The `keywords` and `readings` of a language: lists of words by what they stand for. A keyword must reach us, and must
// mean one thing. Next: read-catalogue-parity.ts.

import { complain, entriesOf, isMapping, itemsOf, type Place, type Report, textOf } from './yaml-source.ts';

/** What the words stand for -> the words as written, and where. */
export type WordLists = Map<string, WordList>;

export interface WordList {
  readonly words: readonly { readonly word: string; readonly place: Place }[];
  readonly place: Place;
}

/**
 * Words that carriers and gateways act on themselves when they are a whole message: they block the sender, unblock her or
 * answer in our place. Source: default opt-out keywords in the public documentation of SMS gateways for long numbers.
 */
const carrierWords: ReadonlySet<string> = new Set(
  'STOP STOPALL UNSUBSCRIBE CANCEL END QUIT REVOKE OPTOUT START YES UNSTOP HELP INFO'.split(' '),
);

/** True: a phone company may act on this word before it reaches us. */
export function isCarrierWord(word: string): boolean {
  return carrierWords.has(word.trim().toUpperCase());
}

/** Adds the lists of one section to `lists`. The same name in two files of a language is reported. */
export function readWordLists(section: Place, lists: WordLists, report: Report): void {
  for (const entry of entriesOf(section, report)) addList(entry, lists, report);
}

/** Maps that stand inside `readings`: labels of values, names of body regions, and signs that are sent as a word. */
export const innerSections = ['labels', 'regions', 'signs'] as const;
export type InnerLists = Readonly<Record<(typeof innerSections)[number], WordLists>>;

/** The same, where the section may hold those maps: their lists go to `inner`. */
export function readReadings(section: Place, readings: WordLists, inner: InnerLists, report: Report): void {
  for (const entry of entriesOf(section, report)) {
    const own = innerSections.find((name) => name === entry.key);
    if (own !== undefined && isMapping(entry)) readWordLists(entry, inner[own], report);
    else addList(entry, readings, report);
  }
}

function addList(place: Place, lists: WordLists, report: Report): void {
  const first = lists.get(place.key);
  if (first !== undefined) {
    const related = [{ file: first.place.file, range: first.place.keyRange, what: 'It is first written here.' }];
    report({
      ...complain(
        place,
        place.keyRange,
        'words/twice',
        `"${place.key}" is written twice.`,
        'The words of one of the two would not be understood.',
        'Put all its words in one list.',
      ),
      related,
    });
    return;
  }
  const words = isMapping(place) ? [] : itemsOf(place).flatMap((item) => wordAt(item, report));
  if (words.length === 0) {
    report(
      complain(
        place,
        place.keyRange,
        'words/none',
        `"${place.key}" has no words.`,
        'Whatever the worker texts for it would not be understood.',
        `Write them as a list: ${place.key}: [word, w].`,
      ),
    );
    return;
  }
  lists.set(place.key, { words, place });
}

function wordAt(place: Place, report: Report): WordList['words'] {
  const word = textOf(place, report);
  return word === null ? [] : [{ word, place }];
}

const answers = 'Answers are digits: the worker would leave the question where she meant to answer it.';
const kept = 'Phone companies keep this word for themselves: it never reaches us, or the worker is cut off from all our texts.';

/** Keywords that would not arrive, would be taken for an answer, or give two commands. */
export function checkKeywords(keywords: WordLists, report: Report): void {
  for (const [command, { words }] of keywords) {
    for (const { word, place } of words) {
      const what = `"${word}" cannot be used for "${command}".`;
      if (isCarrierWord(word)) {
        report(complain(place, place.range, 'keyword/reserved', what, kept, 'Choose another word, or take it out.'));
      }
      if (/^\p{Nd}$/u.test(word)) {
        report(complain(place, place.range, 'keyword/digit', what, answers, 'Choose a word, or a number of two digits such as 00.'));
      }
    }
  }
  checkMeanings(keywords, 'keyword/two-meanings', 'The worker would get one when she means the other.', report);
}

/** Keywords that are also an answer: the command is taken first, so the answer could never be given. */
export function checkAnswers(keywords: WordLists, answers: readonly WordLists[], report: Report): void {
  const commands = new Map([...keywords].flatMap(([command, { words }]) => words.map(({ word }) => [sameAs(word), command] as const)));
  for (const [meaning, { words }] of answers.flatMap((lists) => [...lists])) {
    for (const { word, place } of words) {
      const command = commands.get(sameAs(word));
      if (command === undefined) continue;
      const what = `"${word}" is an answer, "${meaning}", and the command "${command}".`;
      const why = 'The worker would leave the question where she meant to answer it.';
      report(complain(place, place.range, 'keyword/is-an-answer', what, why, 'Keep it in one of the two lists.'));
    }
  }
}

const sameAs = (word: string): string => word.normalize('NFC').toLowerCase();

/** Labels that stand for two values, and sign words that stand for two signs. One region may be asked as two steps, by sex. */
export function checkLabels({ labels, signs }: InnerLists, report: Report): void {
  checkMeanings(labels, 'label/two-meanings', 'A number would be written down as something it is not.', report);
  checkMeanings(signs, 'sign/two-meanings', 'One sign would be written down in place of another.', report);
}

function checkMeanings(lists: WordLists, code: string, why: string, report: Report): void {
  const first = new Map<string, { readonly meaning: string; readonly place: Place }>();
  for (const [meaning, { words }] of lists) {
    for (const { word, place } of words) {
      const same = sameAs(word);
      const other = first.get(same);
      if (other === undefined) first.set(same, { meaning, place });
      if (other === undefined || other.meaning === meaning) continue;
      const what = `"${word}" stands for "${other.meaning}" and for "${meaning}".`;
      const related = [{ file: other.place.file, range: other.place.range, what: `Here for "${other.meaning}".` }];
      report({ ...complain(place, place.range, code, what, why, 'Keep it in one of the two lists.'), related });
    }
  }
}
