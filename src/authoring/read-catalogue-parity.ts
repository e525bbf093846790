// Holds one language against the base: the same messages with the same values, the same commands and readings, and the
// plural forms its grammar needs. A draft may lag behind: there it is a warning. Next: read-catalogue.ts.

import { allParts, type Message, placesOf } from '../messages/message.ts';
import { pluralForm, pluralForms } from '../messages/plural.ts';
import type { Diagnostic } from './diagnostic.ts';
import { nearestName } from './nearest-name.ts';
import type { ReadLocale } from './read-catalogue-locale.ts';
import type { PlacedMessage } from './read-catalogue-messages.ts';
import type { WordLists } from './read-catalogue-words.ts';
import { complain, type Place, type Report } from './yaml-source.ts';

/** What a language lacks, has too much, or says with other values than the base. */
export function checkParity(locale: ReadLocale, base: ReadLocale, report: Report): void {
  const severity = locale.header.draft ? 'warning' : 'error';
  const judge: Report = (diagnostic) => report({ ...diagnostic, severity });
  const { name } = locale.header;
  for (const [key, { message, place }] of base.messages) {
    const own = locale.messages.get(key);
    if (own === undefined)
      judge(
        missing(nearestSibling(key, locale), key, place, `${name} does not say "${key}".`, 'The worker would get it in the base language.'),
      );
    else if (own.message !== null && message !== null) checkPlaces(key, own.message, own.place, message, place, report);
  }
  for (const [key, { place }] of locale.messages) {
    if (!base.messages.has(key)) report(extra(place, 'message', key, base.messages.keys()));
  }
  for (const section of ['keywords', 'readings', 'labels', 'regions'] as const)
    checkWords(locale, base[section], locale[section], judge, report);
}

function checkWords(locale: ReadLocale, base: WordLists, own: WordLists, judge: Report, report: Report): void {
  const absent = [...base.keys()].filter((key) => !own.has(key));
  const there = base.get(absent[0] ?? '')?.place;
  if (there !== undefined) {
    const near = [...own.values()][0]?.place ?? locale.top;
    const what = `${locale.header.name} has no words for: ${absent.join(', ')}.`;
    judge(missing(near, absent[0] ?? '', there, what, 'The worker could not give them in her own language.'));
  }
  for (const [key, { place }] of own) {
    if (!base.has(key)) report(extra(place, 'list of words', key, base.keys()));
  }
}

function missing(near: Place, key: string, there: Place, what: string, why: string): Diagnostic {
  const related = [{ file: there.file, range: there.range, what: 'The base language has it here.' }];
  return { ...complain(near, near.keyRange, 'locale/missing', what, why, `Add it under ${key.split('.').join(' > ')}.`), related };
}

/** The message that shares most of a key, beside which the missing one belongs; the top of the file when none does. */
function nearestSibling(key: string, { messages, top }: ReadLocale): Place {
  for (let stem = key.lastIndexOf('.'); stem > 0; stem = key.lastIndexOf('.', stem - 1)) {
    for (const [other, { place }] of messages) if (other.startsWith(key.slice(0, stem + 1))) return place;
  }
  return top;
}

function extra(place: Place, kind: string, key: string, known: Iterable<string>): Diagnostic {
  const near = nearestName(key, known);
  const fix = near === null ? 'Take it out, or add it to the base language.' : `Write "${near}".`;
  return complain(place, place.keyRange, 'locale/unknown-name', `The base language has no ${kind} "${key}".`, 'It is never used.', fix);
}

function isChosenBy(name: string, { parts }: Message): boolean {
  return [...allParts(parts)].some((part) => typeof part !== 'string' && 'forms' in part && part.name === name);
}

function timesShown(name: string, { parts }: Message): number {
  return [...allParts(parts)].filter((part) => typeof part !== 'string' && part.kind === 'place' && part.name === name).length;
}

function checkPlaces(key: string, message: Message, place: Place, base: Message, there: Place, report: Report): void {
  if (message.fixed === '' && base.fixed !== '') {
    report(
      complain(
        place,
        place.range,
        'message/empty',
        `"${key}" is empty.`,
        'The worker would get nothing where the base language speaks.',
        'Write its words between the quotes.',
      ),
    );
    return;
  }
  const own = placesOf(message);
  const wanted = placesOf(base);
  const related = [{ file: there.file, range: there.range, what: 'The base language says it so.' }];
  // What the base only chooses words by, such as the baby's sex, another grammar may not need.
  const absent = new Set([...wanted].filter(([name, use]) => use !== 'select' && !own.has(name)).map(([name]) => name));
  for (const name of own.keys()) {
    if (wanted.has(name)) continue;
    const near = nearestName(name, absent.size > 0 ? absent : wanted.keys());
    const fix = near !== null ? `Write {${near}}.` : wanted.size === 0 ? 'Take it out.' : `Write {${[...wanted.keys()].join('} or {')}}.`;
    report({
      ...complain(
        place,
        place.range,
        'message/value-unknown',
        `"${key}" has no value {${name}}.`,
        'The worker would see that name in the middle of the text.',
        fix,
      ),
      related,
    });
    if (near !== null) absent.delete(near);
  }
  for (const name of own.keys()) {
    // A number is in as many forms as a grammar has, and some say it in words.
    if (isChosenBy(name, base) || isChosenBy(name, message)) continue;
    if (timesShown(name, message) >= timesShown(name, base)) continue;
    const what = `"${key}" shows {${name}} fewer times than the base language does.`;
    const fix = `Put {${name}} also where the base language repeats it.`;
    report({
      ...complain(place, place.range, 'message/value-fewer', what, 'The worker would not learn what to reply with.', fix),
      related,
    });
  }
  for (const name of absent) {
    report({
      ...complain(
        place,
        place.range,
        'message/value-missing',
        `"${key}" does not show {${name}}.`,
        'The worker would not learn it.',
        `Put {${name}} where it belongs.`,
      ),
      related,
    });
  }
}

/** Plural forms of a message that its language needs and lacks, or has and never uses. */
export function checkPlurals(tag: string, key: string, { message, place }: PlacedMessage, report: Report): void {
  if (message === null) return;
  const plurals = [...allParts(message.parts)].filter((part) => typeof part !== 'string' && part.kind === 'plural');
  if (plurals.length === 0) return;
  const forms: readonly string[] = pluralForms(tag);
  for (const part of plurals) {
    const lacks = new Set<string>();
    for (let count = 0; count <= 1000; count += 1) {
      const form = pluralForm(tag, count - part.offset);
      if (!part.forms.has(`=${count}`) && !part.forms.has(form)) lacks.add(form);
    }
    const idle = [...part.forms.keys()].filter((form) => !form.startsWith('=') && !forms.includes(form));
    for (const form of lacks)
      warn(
        'message/plural-form-missing',
        `"${key}" has no branch "${form}" for {${part.name}}.`,
        'Some numbers would be said in the wrong form.',
        `Add ${form} {...}.`,
      );
    for (const form of idle)
      warn(
        'message/plural-form-unused',
        `"${key}" has a branch "${form}" for {${part.name}}.`,
        `This language has only: ${forms.join(', ')}. The branch is never said.`,
        'Take it out, or write =1 {...} for an exact number.',
      );
  }

  function warn(code: string, what: string, why: string, fix: string): void {
    report({ ...complain(place, place.range, code, what, why, fix), severity: 'warning' });
  }
}
