// A visit of a coordinator to a route, with parts in memory: for tests that call a route and look at what it answers.

import { renderToString } from 'preact-render-to-string';
import type { ConsoleParts, InUse } from '../../src/console/ports.ts';
import type { Answer, Route, Visit } from '../../src/console/route.ts';
import type { PublishedFile } from '../../src/conversation/publications.ts';
import { memoryDrafts } from './memory-drafts.ts';
import { sayKey } from './words-of-keys.ts';

export const noon = Date.UTC(2026, 10, 27, 9);

/** What a test of pages needs of the parts; anything else that is asked for is missing, and the test fails. */
export function fakeParts(files: readonly PublishedFile[], parts: Partial<ConsoleParts> = {}) {
  const drafts = memoryDrafts();
  const inUse = { number: 3, files, catalogues: { base: 'en', byTag: new Map() } } as unknown as InUse;
  return { drafts, inUse: () => inUse, now: () => noon, say: sayKey, ...parts } as unknown as ConsoleParts & {
    readonly drafts: ReturnType<typeof memoryDrafts>;
  };
}

export function visitOf(parts: ConsoleParts, given: Partial<Visit> = {}): Visit {
  return {
    account: { name: 'rose', role: 'coordinator', phone: null },
    facilities: null,
    formToken: 'form-token',
    say: sayKey,
    parts,
    params: {},
    query: {},
    form: {},
    ...given,
  };
}

export async function ask(routes: readonly Route[], method: Route['method'], path: string, visit: Visit): Promise<Answer> {
  const route = routes.find((one) => one.method === method && one.path === path);
  if (route === undefined) throw new Error(`${method} ${path} is no route.`);
  return route.answer(visit);
}

/** The page as HTML; of any other answer a throw. */
export function htmlOf(answer: Answer): string {
  if (answer.kind !== 'page') throw new Error(`A page was expected, and not "${answer.kind}".`);
  return renderToString(answer.body);
}
