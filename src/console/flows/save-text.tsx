// Saving a file into the draft, and throwing its draft away. Of two who write at once the second is shown both texts and loses neither.
// Next: edit-page.tsx.

import type { VNode } from 'preact';
import type { DraftFile } from '../../conversation/drafts.ts';
import { DiffView } from '../diff/diff.tsx';
import { lineDiff } from '../diff/line-diff.ts';
import type { Answer, Visit } from '../route.ts';
import type { Say } from '../words.ts';
import type { SavedText } from './answers.ts';
import { editLink, editPath } from './edit-link.ts';
import { noFile, showFile } from './edit-page.tsx';
import { editedText } from './edited-text.ts';

export async function saveText(visit: Visit): Promise<Answer> {
  const { account, form, parts, say } = visit;
  const edited = await editedText(visit);
  if (edited === null) return noFile(visit);
  const { name, text } = edited;
  const seen = Number(form.save);
  const outcome = await parts.drafts.save({ name, text, by: account.name, at: parts.now() }, Number.isInteger(seen) ? seen : 0);
  if (form.as === 'json') {
    const value: SavedText = outcome.kind === 'saved' ? { ...outcome, said: say('edit.saved') } : { kind: 'overtaken' };
    return { kind: 'json', value };
  }
  if (outcome.kind === 'saved') return { kind: 'to', path: `${editPath(name)}&saved=1` };
  const theirs = outcome.by;
  return showFile(visit, { name, text, draft: theirs, status: 409, notice: <Overtaken theirs={theirs} text={text} say={say} /> });
}

/** What somebody saved since the page was made stays, and is shown. */
export async function discardText(visit: Visit): Promise<Answer> {
  const { file: name = '', save = '0' } = visit.form;
  await visit.parts.drafts.discard(name, Number.parseInt(save, 10) || 0);
  return { kind: 'to', path: visit.parts.inUse().files.some((file) => file.name === name) ? editPath(name) : '/flows' };
}

function Overtaken({ theirs, text, say }: { readonly theirs: DraftFile; readonly text: string; readonly say: Say }): VNode {
  const headed: Record<string, string> = { 'diff.before': say('edit.theirs', { by: theirs.by }), 'diff.after': say('edit.yours') };
  return (
    <section class="problem" role="alert">
      <p>{say('edit.overtaken', { by: theirs.by })}</p>
      <p>
        <a href={editLink(theirs.name)}>{say('edit.take-theirs', { by: theirs.by })}</a>
      </p>
      <DiffView file={theirs.name} hunks={lineDiff(theirs.text, text)} say={(key, values) => headed[key] ?? say(key, values)} />
      <details>
        <summary>{say('edit.theirs-whole', { by: theirs.by })}</summary>
        <textarea class="mono" readOnly rows={12} wrap="off" aria-label={say('edit.theirs-whole', { by: theirs.by })}>
          {`\n${theirs.text}`}
        </textarea>
      </details>
    </section>
  );
}
