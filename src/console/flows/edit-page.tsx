// The page of one file: its text, saved as the draft, what check says of it, and the phone that runs it. A text area and buttons; the
// script puts an editor in the place of the one and fills the others (src/console/client/editor.ts). Next: save-text.tsx.

import type { VNode } from 'preact';
import type { Diagnostic } from '../../authoring/diagnostic.ts';
import type { DraftFile } from '../../conversation/drafts.ts';
import { draftedFiles } from '../drafts/drafted.ts';
import { type Answer, root, type Visit } from '../route.ts';
import { Diagnostics } from './diagnostics.tsx';
import { editLink, mapLink } from './edit-link.ts';
import { isFileName } from './file-groups.ts';
import { Phone } from './phone.tsx';

export interface Shown {
  readonly name: string;
  readonly text: string;
  /** Null: it is as in force. */
  readonly draft: DraftFile | null;
  /** What stands above the editor: what became of the last save. */
  readonly notice?: VNode | undefined;
  readonly diagnostics?: readonly Diagnostic[] | undefined;
  readonly status?: number;
}

export async function editPage(visit: Visit): Promise<Answer> {
  const { parts, say, query } = visit;
  const name = query.file ?? '';
  const [files, drafts] = [await draftedFiles(parts), await parts.drafts.read()];
  const file = files.find((one) => one.name === name);
  if (file === undefined && !isFileName(name)) return noFile(visit);
  return showFile(visit, {
    name,
    text: file?.text ?? '',
    draft: drafts.find((one) => one.name === name) ?? null,
    notice: query.saved === undefined ? undefined : <p class="done">{say('edit.saved')}</p>,
    diagnostics: query.check === undefined ? undefined : await parts.workshop.check(files),
  });
}

export function noFile({ say }: Visit): Answer {
  return { kind: 'page', title: say('edit.no-file'), body: <a href={`${root}/flows`}>{say('nav.flows')}</a>, status: 404 };
}

export function showFile(visit: Visit, { notice, status = 200, ...shown }: Shown): Answer {
  const { say, formToken } = visit;
  const { name, draft } = shown;
  const flow = /^flows\/([^/]+)\.yaml$/.exec(name)?.[1];
  const body = (
    <>
      <p class="file-links">
        <a href={`${root}/flows`}>{say('nav.flows')}</a>
        {flow !== undefined && <a href={mapLink(flow)}>{say('flows.map')}</a>}
        <a href={`${root}/changes`}>{say('flows.to-changes')}</a>
        {draft !== null && <strong class="changed">{say('flows.changed', { by: draft.by })}</strong>}
      </p>
      {notice}
      <div class="bench">
        <div class="bench-text">
          <TextForm visit={visit} shown={shown} />
          <section id="edit-checked" aria-label={say('edit.check')}>
            {shown.diagnostics !== undefined && <Diagnostics file={name} diagnostics={shown.diagnostics} say={say} />}
          </section>
          {draft !== null && (
            <form method="post" action={`${root}/edit/discard`}>
              <input type="hidden" name="token" value={formToken} />
              <input type="hidden" name="file" value={name} />
              <input type="hidden" name="save" value={draft.save} />
              <button type="submit">{say('edit.discard')}</button>
            </form>
          )}
        </div>
        <Phone visit={visit} />
      </div>
    </>
  );
  return { kind: 'page', title: name, body, status, scripts: ['editor'] };
}

function TextForm({ visit: { say, formToken, query }, shown: { name, text, draft } }: { readonly visit: Visit; readonly shown: Shown }) {
  return (
    <form
      id="edit-form"
      method="post"
      action={`${root}/edit`}
      data-check={`${root}/edit/check`}
      data-schema={`${root}/edit/schema?file=${encodeURIComponent(name)}`}
      data-line={query.line}
      data-why={say('edit.why')}
      data-fix={say('edit.fix')}
      data-unsaved={say('edit.unsaved')}
      data-checking={say('edit.checking')}
      data-failed={say('edit.failed')}
    >
      <input type="hidden" name="token" value={formToken} />
      <input type="hidden" name="file" value={name} />
      <input type="hidden" name="save" value={draft?.save ?? 0} />
      <label for="edit-text">{say('edit.text')}</label>
      <textarea id="edit-text" name="text" class="mono" rows={24} spellcheck={false} wrap="off" aria-describedby="edit-keys">
        {/* A browser drops the first line break of a text area. */}
        {`\n${text}`}
      </textarea>
      <p id="edit-keys" class="muted" hidden>
        {say('edit.keys')}
      </p>
      <div class="edit-buttons">
        <button type="submit" class="main">
          {say('edit.save')}
        </button>
        <a class="button" id="edit-check-link" href={`${editLink(name)}&check=1`}>
          {say('edit.check-draft')}
        </a>
        <span id="edit-state" role="status" class="muted" />
      </div>
    </form>
  );
}
