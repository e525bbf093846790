// What a translator is told when a message cannot be read: the parser's codes in plain words, and something to type.
// Nothing of the parser's own wording is shown. Next: read-catalogue-messages.ts.

import type { Fault } from '../messages/message.ts';
import { nearestName } from './nearest-name.ts';

export interface FaultInWords {
  readonly code: string;
  readonly severity: 'error' | 'warning';
  readonly what: string;
  readonly why: string;
  readonly fix: string;
}

const notSaid = 'The worker would see the name of this message instead of its words.';
const branches = 'Write the branches after it: {count, plural, one {# text} other {# texts}}.';

/** The parser's codes -> what is wrong, and the mend. `it` is the piece of the message that the code points at. */
const syntax: Readonly<Record<string, (it: string) => readonly [what: string, fix: string]>> = {
  EXPECT_ARGUMENT_CLOSING_BRACE: (it) => [`"${it}" opens a bracket that is never closed.`, 'Put "}" behind the name of the value.'],
  EMPTY_ARGUMENT: () => ['"{}" names no value.', 'Write the name of the value inside, such as {weight}, or take the brackets out.'],
  MALFORMED_ARGUMENT: (it) => [
    `"${it}..." is not the name of a value.`,
    'Use letters, digits and _ only, with nothing else between the brackets.',
  ],
  EXPECT_ARGUMENT_TYPE: () => ['Nothing follows the comma behind the name.', 'Take the comma out, or write "plural" or "select" after it.'],
  INVALID_ARGUMENT_TYPE: (it) => [`There is no form "${it}".`, `Write "${nearestName(it, ['plural', 'select']) ?? 'plural" or "select'}".`],
  EXPECT_SELECT_ARGUMENT_OPTIONS: () => ['A plural or select has no branches.', branches],
  EXPECT_SELECT_ARGUMENT_SELECTOR: () => [
    'A select has no branches.',
    'Write them after it: {sex, select, girl {She} boy {He} other {The baby}}.',
  ],
  EXPECT_PLURAL_ARGUMENT_SELECTOR: () => ['A plural has no branches.', branches],
  EXPECT_SELECT_ARGUMENT_SELECTOR_FRAGMENT: () => [
    'A branch of a select has a name and no words.',
    'Put its words in brackets: girl {She}.',
  ],
  EXPECT_PLURAL_ARGUMENT_SELECTOR_FRAGMENT: () => [
    'A branch of a plural has a name and no words.',
    'Put its words in brackets: one {# text}.',
  ],
  INVALID_PLURAL_ARGUMENT_SELECTOR: () => [
    'A branch of a plural begins with "=" and no number follows.',
    'Write a whole number after it, such as =0 {none}.',
  ],
  DUPLICATE_PLURAL_ARGUMENT_SELECTOR: (it) => [`The branch "${it}" is there twice.`, 'Keep one of the two.'],
  DUPLICATE_SELECT_ARGUMENT_SELECTOR: (it) => [`The branch "${it}" is there twice.`, 'Keep one of the two.'],
  MISSING_OTHER_CLAUSE: () => [
    'The branch "other" is missing.',
    'Add other {...} before the last bracket; it is used when no other branch fits.',
  ],
};

const anySyntax = (it: string): readonly [string, string] => [
  `This message cannot be read from "${it}" on.`,
  'Check the brackets: each "{" needs its "}". A bracket that should be shown is written \'{\'.',
];

/** A fault in words. Takes text: the message as it was written. */
export function putFault(fault: Fault, text: string): FaultInWords {
  const it = text.slice(fault.from, Math.max(fault.to, fault.from + 1));
  switch (fault.kind) {
    case 'syntax': {
      const [what, fix] = (syntax[fault.icu] ?? anySyntax)(it);
      return { code: 'message/not-readable', severity: 'error', what, why: notSaid, fix };
    }
    case 'form':
      return {
        code: 'message/form-not-used',
        severity: 'error',
        what: `{${fault.name}, ${fault.form}, ...} is not used here.`,
        why: 'It brings in characters that cheap texts do not hold, and the message would cost up to three times as much.',
        fix:
          fault.form === 'selectordinal'
            ? `Write {${fault.name}} or {${fault.name}, plural, ...}.`
            : `Write {${fault.name}}: numbers, times and dates come ready to be shown.`,
      };
    case 'quoted-place':
      return {
        code: 'message/value-in-quotes',
        severity: 'error',
        what: `The apostrophe before {${fault.name}} turns it into plain text.`,
        why: 'The worker would see the brackets and a name, and not the value.',
        fix: `Write two apostrophes: ''{${fault.name}}.`,
      };
    case 'stray-bracket':
      return {
        code: 'message/stray-bracket',
        severity: 'warning',
        what: 'This "}" closes nothing.',
        why: 'The worker would see the bracket.',
        fix: 'Take it out, or add the "{" that belongs to it. A bracket that should be shown is written \'}\'.',
      };
  }
}
