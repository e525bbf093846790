// Words for tests of pages: the key, with its values behind it, so that a test sees what was to be said.

import type { SayWords } from '../../src/console/map/say-words.ts';

export const sayKey: SayWords = (key, values) =>
  [key, ...Object.entries(values ?? {}).map(([name, value]) => `${name}=${value}`)].join(' ');
