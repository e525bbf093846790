// The `language` section of a locale: its tag, its name in its own words, its alphabet, whether it is a draft, its digits.
// Next: read-catalogue.ts.

import type { Catalogue } from '../messages/catalogue.ts';
import { alphabetOf } from '../messages/gsm7.ts';
import { complain, fieldsOf, needed, type Place, type Report, textOf, wordOf } from './yaml-source.ts';

export type Header = Pick<Catalogue, 'tag' | 'name' | 'alphabet' | 'draft' | 'digits'>;

const alphabets = ['gsm-7', 'ucs-2'] as const;
const whyTag = 'A worker is served by the tag that the roster gives for her; under a wrong tag she gets the base language.';

/** The header, or null when one of its fields cannot be used. `fileTag` is the tag that the file's name gives. */
export function readHeader(section: Place, fileTag: string, report: Report): Header | null {
  const fields = fieldsOf(section, ['tag', 'name', 'alphabet', 'draft', 'digits'], report);
  const tag = readTag(needed(fields, 'tag', section, report), fileTag, report);
  const namePlace = needed(fields, 'name', section, report);
  const name = namePlace && textOf(namePlace, report);
  const alphabetPlace = needed(fields, 'alphabet', section, report);
  const alphabet = alphabetPlace && wordOf(alphabetPlace, alphabets, report);
  const draftPlace = needed(fields, 'draft', section, report);
  const draft = draftPlace && wordOf(draftPlace, ['no', 'yes', 'false', 'true'] as const, report);
  if (tag === null || name === null || alphabet === null || draft === null) return null;
  const digits = fields.has('digits') ? readDigits(fields.get('digits') as Place, alphabet, report) : null;
  return { tag, name, alphabet, draft: draft === 'yes' || draft === 'true', ...(digits !== null && { digits }) };
}

function readTag(place: Place | null, fileTag: string, report: Report): string | null {
  const tag = place && textOf(place, report);
  if (place === null || tag === null) return null;
  const canonical = canonicalTag(tag);
  if (canonical !== tag) {
    const fix = canonical === null ? 'Write the BCP-47 tag of the language, such as sw or pt-MZ.' : `Write "${canonical}".`;
    report(complain(place, place.range, 'language/not-a-tag', `"${tag}" is not a language tag as they are written.`, whyTag, fix));
    return null;
  }
  if (tag === fileTag) return tag;
  report(
    complain(
      place,
      place.range,
      'language/tag-differs',
      `The tag is "${tag}", and the file is named for "${fileTag}".`,
      whyTag,
      `Write "${fileTag}", or rename the file.`,
    ),
  );
  return null;
}

function canonicalTag(tag: string): string | null {
  try {
    return Intl.getCanonicalLocales(tag)[0] ?? null;
  } catch {
    return null;
  }
}

function readDigits(place: Place, alphabet: Catalogue['alphabet'], report: Report): string | null {
  const digits = textOf(place, report);
  if (digits === null) return null;
  if (!/^\p{Nd}{10}$/u.test(digits)) {
    report(
      complain(
        place,
        place.range,
        'language/not-ten-digits',
        `"${digits}" is not ten digits.`,
        'Numbers would be shown with digits missing.',
        'Write the ten digits from zero to nine without spaces, or take the line out.',
      ),
    );
    return null;
  }
  if (alphabet === 'gsm-7' && alphabetOf(digits) !== 'gsm-7') {
    report(
      complain(
        place,
        place.range,
        'language/digits-outside-alphabet',
        `The digits "${digits}" are not in the gsm-7 alphabet.`,
        'Every text with a number in it would cost two or three times as much.',
        'Take the line out, or write "alphabet: ucs-2".',
      ),
    );
    return null;
  }
  return digits;
}
