// Facts of the dialog core become entries of the register: an examination as it was found, an alert, and the text that tells
// the nurse. Each keeps the key that the core gave it.

import type { Book } from '../dialog/book.ts';
import type { Fact } from '../dialog/facts.ts';
import { alertText } from './alert-text.ts';
import type { Voice } from './compose.ts';
import type { Entry, Facility, Roster } from './ports.ts';

export function entriesOf(facts: readonly Fact[], facility: Facility, roster: Roster, book: Book, voice: Omit<Voice, 'screen'>): Entry[] {
  return facts.flatMap((fact): Entry[] => {
    const { key, worker, code, at } = fact;
    const common = { key, worker, facility: facility.id, code, at };
    if (fact.kind === 'examination') {
      return [
        {
          ...common,
          kind: 'examination',
          body: { case: fact.case, interpretation: fact.interpretation, answers: fact.answers, version: fact.version },
        },
      ];
    }
    const nurse = facility.nurse;
    const language = roster.find(nurse)?.language ?? voice.language;
    const text: Entry = {
      kind: 'text',
      key: `nurse:${key}`,
      to: nurse,
      text: alertText(fact, facility.name, book, { ...voice, language }),
      urgent: true,
      at,
    };
    if (fact.isUpdate) return [text];
    return [
      { ...common, kind: 'alert', nurse, body: { case: fact.case, interpretation: fact.interpretation, version: fact.version } },
      text,
    ];
  });
}
