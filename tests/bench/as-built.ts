// Given to Node before the bench (`--import`): what the bench imports of the program is then what `npm run build` made of it, as it runs in
// production. The loader that runs TypeScript makes functions dearer, by a third of a turn. Next: as-built-names.ts.

import { register } from 'node:module';

register('./as-built-names.ts', import.meta.url);
