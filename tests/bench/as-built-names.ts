// Where a module of the program lies once it is built. Called by Node for every import, in a thread of its own (as-built.ts).

import type { ResolveHook } from 'node:module';

const source = new URL('../../src/', import.meta.url).href;
const built = new URL('../../dist/', import.meta.url).href;

export const resolve: ResolveHook = async (specifier, context, next) => {
  const found = await next(specifier, context);
  if (!found.url.startsWith(source)) return found;
  return { ...found, url: found.url.replace(source, built).replace(/\.tsx?(?=\?|$)/, '.js'), format: 'module' };
};
