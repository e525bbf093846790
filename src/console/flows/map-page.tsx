// The map of a flow as the draft has it, each step a link to its line. Drawn by ../map/flow-map.tsx.

import type { Found } from '../../authoring/danger-exits.ts';
import { type Catalogues, findCatalogue, say as sayOf } from '../../messages/catalogue.ts';
import { draftedFiles } from '../drafts/drafted.ts';
import { FlowMapView, nameInFile } from '../map/flow-map.tsx';
import { type Answer, root, type Visit } from '../route.ts';
import { editLink } from './edit-link.ts';

export async function mapPage({ parts, say, query }: Visit): Promise<Answer> {
  const flow = query.flow ?? '';
  const files = await draftedFiles(parts);
  const file = files.find(({ name }) => name === `flows/${flow}.yaml`);
  if (file === undefined) return { kind: 'page', title: say('access.gone'), body: <p>{say('edit.no-file')}</p>, status: 404 };
  const map = await parts.workshop.map(files, flow);
  const body = (
    <>
      <p class="file-links">
        <a href={`${root}/flows`}>{say('nav.flows')}</a> <a href={editLink(file.name)}>{say('flows.edit')}</a>
      </p>
      {map === null ? (
        <p class="problem">{say('flows.map-unread')}</p>
      ) : (
        <FlowMapView
          map={map}
          say={say}
          linkTo={editLink}
          nameOf={(found) => nameOf(found, parts.inUse().catalogues) ?? nameInFile(found)}
        />
      )}
    </>
  );
  return { kind: 'page', title: say('map.title', { flow }), body };
}

/** As a nurse reads it in an alert; null: what is published has no words for it, such as a band or a sign of the draft. */
function nameOf({ of, value }: Found, catalogues: Catalogues): string | null {
  const key = value === true ? `signs.${of}` : `signs.${of}.${value}`;
  return findCatalogue(catalogues, catalogues.base)?.messages.has(key) ? sayOf(catalogues, catalogues.base, key) : null;
}
