// The outline: flows with their steps, then the files of the protocol, the cases, what is published elsewhere, and the wording; which of
// them the draft changes, and who wrote that. Every name leads into the editor. Next: file-groups.ts, edit-page.tsx.

import type { VNode } from 'preact';
import { stepPlaces } from '../../authoring/flow-places.ts';
import type { DraftFile } from '../../conversation/drafts.ts';
import type { PublishedFile } from '../../conversation/publications.ts';
import { overlay } from '../drafts/drafted.ts';
import { type Answer, root, type Visit } from '../route.ts';
import type { Say } from '../words.ts';
import { editLink, mapLink } from './edit-link.ts';
import { type FileGroup, groupsOf, openingOf } from './file-groups.ts';

const languages = new Intl.DisplayNames('en', { type: 'language' });

interface Given {
  readonly say: Say;
  readonly changes: ReadonlyMap<string, DraftFile>;
}

export async function outline({ parts, say }: Visit): Promise<Answer> {
  const drafts = await parts.drafts.read();
  const groups = groupsOf(overlay(parts.inUse().files, drafts));
  const given: Given = { say, changes: new Map(drafts.map((draft) => [draft.name, draft])) };
  const [flows, ...others] = groups;
  const body = (
    <>
      <p>
        {drafts.length === 0 ? say('flows.no-draft') : say('flows.draft', { count: drafts.length })}{' '}
        <a href={`${root}/changes`}>{say('flows.to-changes')}</a>
      </p>
      {flows?.files.map((file) => (
        <FlowOutline key={file.name} file={file} {...given} />
      ))}
      {others.map((group) => (
        <Group key={`${group.kind} ${group.language}`} group={group} {...given} />
      ))}
      <NewFile say={say} />
    </>
  );
  return { kind: 'page', title: say('nav.flows'), body };
}

function FlowOutline({ file, say, changes }: Given & { readonly file: PublishedFile }): VNode {
  const flow = file.name.replace(/^flows\/|\.yaml$/g, '');
  const steps = [...stepPlaces(file)].filter(([, { fields }]) => fields.size > 0);
  return (
    <section>
      <h2>{flow}</h2>
      <p class="muted">{openingOf(file)}</p>
      <p class="file-links">
        <a href={editLink(file.name)}>{say('flows.edit')}</a> <a href={mapLink(flow)}>{say('flows.map')}</a>
        <Changed by={changes.get(file.name)} say={say} />
      </p>
      <details>
        <summary>{say('flows.steps', { count: steps.length })}</summary>
        <ol class="step-list">
          {steps.map(([id, { line }]) => (
            <li key={id}>
              <a href={editLink(file.name, line)}>{id}</a>
            </li>
          ))}
        </ol>
      </details>
    </section>
  );
}

function Group({ group: { kind, language, files }, say, changes }: Given & { readonly group: FileGroup }): VNode {
  const folder = files[0]?.name.split('/').slice(0, 2).join('/') ?? '';
  return (
    <section>
      <h2>{say(`flows.group.${kind}`, { language: language === undefined ? '' : (languages.of(language) ?? language) })}</h2>
      <ul class={kind === 'wording' ? 'file-list is-short' : 'file-list'}>
        {files.map((file) => (
          <li key={file.name}>
            <a href={editLink(file.name)}>{file.name.slice(folder.length + 1)}</a> <Changed by={changes.get(file.name)} say={say} />
            {kind !== 'wording' && <span class="muted"> {openingOf(file)}</span>}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Changed({ by, say }: { readonly by: DraftFile | undefined; readonly say: Say }): VNode | null {
  return by === undefined ? null : <strong class="changed">{say('flows.changed', { by: by.by })}</strong>;
}

function NewFile({ say }: { readonly say: Say }): VNode {
  return (
    <section>
      <h2>{say('flows.new')}</h2>
      <form class="narrow" method="get" action={`${root}/edit`}>
        <label>
          {say('flows.new-name')}
          <input name="file" required placeholder="locales/sw/extra.yaml" aria-describedby="new-file-help" />
        </label>
        <p id="new-file-help" class="muted">
          {say('flows.new-help')}
        </p>
        <button type="submit">{say('flows.new-go')}</button>
      </form>
    </section>
  );
}
