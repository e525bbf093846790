// A message and its values become text. Never throws and never shows a bracket: what is missing is shown by its name.
// Numbers stand as they are given, without grouping, in the language's own digits. Next: catalogue.ts (which message).

import type { Message, Part } from './message.ts';
import { pluralForm } from './plural.ts';

/** A value that is text already, or a number. Undefined: not given. */
export type Value = string | number | undefined;

export interface Language {
  /** BCP-47. */
  readonly tag: string;
  /** The language's ten digits from zero to nine; left out: 0123456789. */
  readonly digits?: string;
}

/**
 * The message with its places filled.
 *
 * Takes    given: the name of a place -> its value. A number that is not finite counts as not given.
 * Returns  text. A place without a value shows its name ("weight"); a plural or select without one takes `other`.
 */
export function render(message: Message, language: Language, given: (name: string) => Value): string {
  return message.fixed ?? renderParts(message.parts, language, given, '');
}

function renderParts(parts: readonly Part[], language: Language, given: (name: string) => Value, count: string): string {
  let text = '';
  for (const part of parts) {
    if (typeof part === 'string') {
      text += part;
    } else if (part.kind === 'place') {
      text += show(given(part.name), language) ?? part.name;
    } else if (part.kind === 'count') {
      text += count;
    } else if (part.kind === 'select') {
      const chosen = part.forms.get(String(given(part.name))) ?? part.forms.get('other') ?? [];
      text += renderParts(chosen, language, given, count);
    } else {
      const value = given(part.name);
      const chosen = pluralChoice(part, value, language) ?? part.forms.get('other') ?? [];
      text += renderParts(chosen, language, given, show(less(value, part.offset), language) ?? part.name);
    }
  }
  return text;
}

type Plural = Extract<Part, { readonly kind: 'plural' }>;

function pluralChoice(part: Plural, value: Value, language: Language): readonly Part[] | undefined {
  const count = typeof value === 'string' && value.trim() !== '' ? Number(value) : value;
  if (typeof count !== 'number' || !Number.isFinite(count)) return undefined;
  return part.forms.get(`=${count}`) ?? part.forms.get(pluralForm(language.tag, count - part.offset));
}

function less(value: Value, offset: number): Value {
  return typeof value === 'number' ? value - offset : value;
}

function show(value: Value, { digits }: Language): string | undefined {
  if (typeof value !== 'number') return value;
  if (!Number.isFinite(value)) return undefined;
  return digits === undefined ? String(value) : inDigits(String(value), digits);
}

/** ASCII digits replaced by a language's own, which may lie outside the basic plane. */
export function inDigits(text: string, digits: string): string {
  const own = [...digits];
  return text.replace(/[0-9]/g, (digit) => own[Number(digit)] ?? digit);
}
