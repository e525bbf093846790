// One message of the catalogue, read from its ICU MessageFormat text into parts. Three forms are known: {name}, plural
// and select; every other one, such as {n, number}, is a fault, because Intl would choose characters no cheap SMS holds.
// Faults are codes and places; src/authoring/read-catalogue-faults.ts puts them into words. Next: render.ts, longest.ts.

import { type MessageFormatElement, parse, TYPE } from '@formatjs/icu-messageformat-parser';
import { toPlain } from './gsm7.ts';

/** Plain text stands for itself; `count` is the # of the plural around it. */
export type Part =
  | string
  | { readonly kind: 'place'; readonly name: string }
  | { readonly kind: 'count' }
  | { readonly kind: 'plural'; readonly name: string; readonly offset: number; readonly forms: Forms }
  | { readonly kind: 'select'; readonly name: string; readonly forms: Forms };

/** By the name of the form; `other` is always there. */
export type Forms = ReadonlyMap<string, readonly Part[]>;

export interface Message {
  readonly parts: readonly Part[];
  /** The whole text when it has no places, so that nothing is walked to say it. */
  readonly fixed: string | null;
}

export type Fault =
  /** Not ICU MessageFormat; `icu` is the parser's own code. */
  | { readonly kind: 'syntax'; readonly icu: string; readonly from: number; readonly to: number }
  /** A form that is not used here: number, date, time, selectordinal. */
  | { readonly kind: 'form'; readonly form: string; readonly name: string; readonly from: number; readonly to: number }
  /** An apostrophe before a bracket has turned {name} into plain text. */
  | { readonly kind: 'quoted-place'; readonly name: string; readonly from: number; readonly to: number }
  /** A closing bracket that closes nothing. */
  | { readonly kind: 'stray-bracket'; readonly from: number; readonly to: number };

/** The message, null when its text cannot be read at all or uses a form not known here, and what is wrong with it. */
export function readMessage(text: string): { readonly message: Message | null; readonly faults: readonly Fault[] } {
  const faults: Fault[] = [];
  const elements = parseIcu(text, faults);
  if (elements === null) return { message: null, faults };
  const parts = convert(elements, text, faults);
  if (faults.some((fault) => fault.kind === 'form')) return { message: null, faults };
  const fixed = parts.every((part) => typeof part === 'string') ? parts.join('') : null;
  return { message: { parts, fixed }, faults };
}

function parseIcu(text: string, faults: Fault[]): MessageFormatElement[] | null {
  try {
    return parse(text, { ignoreTag: true, captureLocation: true, shouldParseSkeletons: false });
  } catch (error) {
    const { message, location } = error as Error & { location?: MessageFormatElement['location'] };
    const from = location?.start.offset ?? 0;
    faults.push({ kind: 'syntax', icu: message, from, to: location?.end.offset ?? from });
    return null;
  }
}

function convert(elements: readonly MessageFormatElement[], text: string, faults: Fault[]): Part[] {
  return elements.map((element): Part => {
    const from = element.location?.start.offset ?? 0;
    const to = element.location?.end.offset ?? text.length;
    const formsOf = (options: Readonly<Record<string, { value: MessageFormatElement[] }>>): Forms =>
      new Map(Object.entries(options).map(([form, option]) => [form, convert(option.value, text, faults)]));

    switch (element.type) {
      case TYPE.literal:
        faults.push(...faultsOfLiteral(element.value, text.slice(from, to), from, to));
        return toPlain(element.value);
      case TYPE.argument:
        return { kind: 'place', name: element.value };
      case TYPE.pound:
        return { kind: 'count' };
      case TYPE.select:
        return { kind: 'select', name: element.value, forms: formsOf(element.options) };
      case TYPE.plural:
        if (element.pluralType !== 'ordinal') {
          return { kind: 'plural', name: element.value, offset: element.offset, forms: formsOf(element.options) };
        }
        break;
    }
    faults.push({ kind: 'form', form: formName(element.type), name: element.value, from, to });
    return { kind: 'place', name: element.value };
  });
}

function faultsOfLiteral(value: string, written: string, from: number, to: number): Fault[] {
  const quoted = /\{\s*([\w-]+)\s*[,}]/u.exec(value)?.[1];
  const apostrophe = written.indexOf("'{");
  if (quoted !== undefined && apostrophe >= 0) {
    return [{ kind: 'quoted-place', name: quoted, from: from + apostrophe, to: Math.min(from + apostrophe + quoted.length + 3, to) }];
  }
  const bracket = written.indexOf('}');
  if (bracket >= 0 && !written.includes("'")) {
    return [{ kind: 'stray-bracket', from: from + bracket, to: from + bracket + 1 }];
  }
  return [];
}

function formName(type: TYPE): string {
  return type === TYPE.plural ? 'selectordinal' : (TYPE[type] ?? 'other');
}

export type PlaceUse = 'place' | 'plural' | 'select';

/** The places of a message and how each is used; one that is shown anywhere is a `place`, and `select` only chooses. */
export function placesOf(message: Message): ReadonlyMap<string, PlaceUse> {
  const weakestFirst: readonly PlaceUse[] = ['select', 'plural', 'place'];
  const places = new Map<string, PlaceUse>();
  for (const part of allParts(message.parts)) {
    if (typeof part === 'string' || part.kind === 'count') continue;
    const before = places.get(part.name) ?? 'select';
    places.set(part.name, weakestFirst.indexOf(part.kind) > weakestFirst.indexOf(before) ? part.kind : before);
  }
  return places;
}

/** Every part, those inside the forms of a plural or a select among them. */
export function* allParts(parts: readonly Part[]): Generator<Part> {
  for (const part of parts) {
    yield part;
    if (typeof part === 'string' || !('forms' in part)) continue;
    for (const form of part.forms.values()) yield* allParts(form);
  }
}
