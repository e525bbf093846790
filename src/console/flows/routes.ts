// The pages of the coordinator's editor by path. Next: outline.tsx, edit-page.tsx.

import { coordinators, type Route } from '../route.ts';
import { checkText } from './check-text.tsx';
import { editPage } from './edit-page.tsx';
import { mapPage } from './map-page.tsx';
import { outline } from './outline.tsx';
import { playText } from './play-text.tsx';
import { discardText, saveText } from './save-text.tsx';
import { schemaOf } from './schema-names.ts';

export const flowsRoutes: readonly Route[] = [
  { method: 'get', path: '/flows', roles: coordinators, answer: outline },
  { method: 'get', path: '/flows/map', roles: coordinators, answer: mapPage },
  { method: 'get', path: '/edit', roles: coordinators, answer: editPage },
  { method: 'post', path: '/edit', roles: coordinators, answer: saveText },
  { method: 'post', path: '/edit/discard', roles: coordinators, answer: discardText },
  { method: 'get', path: '/edit/schema', roles: coordinators, answer: schemaOf },
  { method: 'post', path: '/edit/check', roles: coordinators, answer: checkText },
  { method: 'post', path: '/edit/play', roles: coordinators, answer: playText },
];
