// The map of a flow as the draft has it, each step a link to its line. Drawn by ../map/flow-map.tsx.

import { draftedFiles } from '../drafts/drafted.ts';
import { FlowMapView } from '../map/flow-map.tsx';
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
      {map === null ? <p class="problem">{say('flows.map-unread')}</p> : <FlowMapView map={map} say={say} linkTo={editLink} />}
    </>
  );
  return { kind: 'page', title: say('map.title', { flow }), body };
}
