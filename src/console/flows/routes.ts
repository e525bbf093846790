// The pages of the coordinator's editor by path. Next: outline.tsx, edit-page.tsx.

import { coordinatorsOfAll, type Route } from '../route.ts';
import { checkText } from './check-text.tsx';
import { editPage } from './edit-page.tsx';
import { mapPage } from './map-page.tsx';
import { outline } from './outline.tsx';
import { playText } from './play-text.tsx';
import { discardText, saveText } from './save-text.tsx';
import { schemaOf } from './schema-names.ts';

export const flowsRoutes: readonly Route[] = [
  { method: 'get', path: '/flows', ...coordinatorsOfAll, answer: outline },
  { method: 'get', path: '/flows/map', ...coordinatorsOfAll, answer: mapPage },
  { method: 'get', path: '/edit', ...coordinatorsOfAll, answer: editPage },
  { method: 'post', path: '/edit', ...coordinatorsOfAll, answer: saveText },
  { method: 'post', path: '/edit/discard', ...coordinatorsOfAll, answer: discardText },
  { method: 'get', path: '/edit/schema', ...coordinatorsOfAll, answer: schemaOf },
  { method: 'post', path: '/edit/check', ...coordinatorsOfAll, answer: checkText },
  { method: 'post', path: '/edit/play', ...coordinatorsOfAll, answer: playText },
];
