// Checks the draft with the text that is being written, for the script of the editor: what stands at the lines of this file as data,
// all of it as a part of the page. Next: src/console/client/editing/check.ts.

import { renderPart } from '../page.tsx';
import type { Answer, Visit } from '../route.ts';
import type { CheckedText } from './answers.ts';
import { Diagnostics } from './diagnostics.tsx';
import { editedText } from './edited-text.ts';

export async function checkText(visit: Visit): Promise<Answer> {
  const edited = await editedText(visit);
  if (edited === null) return { kind: 'json', value: { kind: 'no-file' }, status: 404 };
  const diagnostics = await visit.parts.workshop.check(edited.files);
  const value: CheckedText = {
    diagnostics: diagnostics.filter(({ file }) => file === edited.name),
    html: renderPart(<Diagnostics file={edited.name} diagnostics={diagnostics} say={visit.say} />),
  };
  return { kind: 'json', value };
}
