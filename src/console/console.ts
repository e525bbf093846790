// The console as a handler for the web server: its pages by path, behind the gate. Posts must come from our own pages; a page is
// answered only to its roles. Next: route.ts for what a page is, access/gate.ts for who is at the door.

import bodyParser from 'body-parser';
import express, { type ErrorRequestHandler, type Request, type Response, type Router } from 'express';
import helmet from 'helmet';
import { h } from 'preact';
import { faultName } from '../conversation/patience.ts';
import { isFromOurPage, noCookie, sessionOf, signIn } from './access/gate.ts';
import { accountRoutes, SignIn } from './access/pages.tsx';
import { facilitiesOf } from './access/scope.ts';
import { auditRoutes } from './audit/audit-page.tsx';
import { careRoutes } from './care/routes.ts';
import { changesRoutes } from './changes/changes-routes.tsx';
import { flowsRoutes } from './flows/routes.ts';
import { packedFiles, sendPacked } from './packed.ts';
import { renderPage, renderPart } from './page.tsx';
import type { ConsoleParts } from './ports.ts';
import { rosterRoutes } from './roster/roster-routes.ts';
import { type Answer, mayOpen, type Route, root, type Visit } from './route.ts';
import { wordingRoutes } from './wording/wording-routes.ts';

/** A flow or a table of wording fits in it many times over. */
const largestPost = '2mb';

const allRoutes: readonly Route[] = [
  ...careRoutes,
  ...wordingRoutes,
  ...changesRoutes,
  ...rosterRoutes,
  ...flowsRoutes,
  ...auditRoutes,
  ...accountRoutes,
];

export function buildConsole(parts: ConsoleParts, routes: readonly Route[] = allRoutes): Router {
  const router = express.Router();
  router.use(
    helmet({
      contentSecurityPolicy: {
        useDefaults: false,
        directives: {
          defaultSrc: ["'none'"],
          scriptSrc: ["'self'"],
          // The editor writes its styles into the page.
          styleSrc: ["'self'", "'unsafe-inline'"],
          imgSrc: ["'self'", 'data:'],
          connectSrc: ["'self'"],
          formAction: ["'self'"],
          frameAncestors: ["'none'"],
          baseUri: ["'none'"],
        },
      },
      referrerPolicy: { policy: 'same-origin' },
    }),
  );
  router.get('/assets/:name', packedFiles(parts.assets));
  router.use((_request, response, next) => {
    response.setHeader('cache-control', 'no-store');
    next();
  });
  router.use(bodyParser.urlencoded({ extended: false, limit: largestPost }), bodyParser.json({ limit: largestPost }));
  router.get('/sign-in', (request, response) => showSignIn(response, parts, request.query.to));
  router.post('/sign-in', (request, response) => takeSignIn(request, response, parts));
  router.post('/sign-out', (request, response) => takeSignOut(request, response, parts));
  for (const route of routes) router[route.method](route.path, (request, response) => take(route, request, response, parts));
  router.use(async (request, response) => {
    const session = await sessionOf(request.headers.cookie, parts);
    const visit = session && { ...session, facilities: facilitiesOf(session.account, parts.roster) };
    await send(response, problem(parts.say('access.gone'), 404), { parts, path: '', visit });
  });
  const failed: ErrorRequestHandler = async (error, _request, response, _next) => {
    const status: unknown = error instanceof Error && 'status' in error ? error.status : undefined;
    const isTheirs = typeof status === 'number' && status >= 400 && status < 500;
    if (!isTheirs) parts.log.error({ fault: faultName(error) }, 'a page of the console could not be made');
    if (!response.headersSent)
      await send(response, problem(parts.say(isTheirs ? 'access.gone' : 'page.broken'), isTheirs ? status : 500), {
        parts,
        path: '',
        visit: null,
      });
  };
  router.use(failed);
  return router;
}

async function take(route: Route, request: Request, response: Response, parts: ConsoleParts): Promise<void> {
  const session = await sessionOf(request.headers.cookie, parts);
  const wantsPage = request.accepts(['html', 'json']) === 'html';
  if (session === null) {
    if (route.method === 'get' && wantsPage) response.redirect(303, `${root}/sign-in?to=${encodeURIComponent(request.url)}`);
    else response.status(401).json({ kind: 'signed-out' });
    return;
  }
  const facilities = facilitiesOf(session.account, parts.roster);
  const around = { parts, path: request.path, visit: { ...session, facilities } };
  const form = fieldsOf(request.body);
  if (route.method === 'post' && !isFromOurPage(session, form.token ?? request.get('x-form-token')))
    return send(response, problem(parts.say('access.expired'), 403), around);
  if (!mayOpen(route, { ...session, facilities })) return send(response, problem(parts.say('access.not-yours'), 403), around);
  const visit: Visit = {
    account: session.account,
    facilities,
    formToken: session.formToken,
    say: parts.say,
    parts,
    params: fieldsOf(request.params),
    query: fieldsOf(request.query),
    form,
  };
  await send(response, await route.answer(visit), around);
}

interface Around {
  readonly parts: ConsoleParts;
  readonly path: string;
  readonly visit: Pick<Visit, 'account' | 'facilities' | 'formToken'> | null;
}

async function send(response: Response, answer: Answer, { parts, path, visit }: Around): Promise<void> {
  switch (answer.kind) {
    case 'to':
      response.redirect(303, `${root}${answer.path}`);
      return;
    case 'json':
      response.status(answer.status ?? 200).json(answer.value);
      return;
    case 'part':
      return sendPacked(response.type('html'), renderPart(answer.body));
    case 'page':
      return sendPacked(
        response.status(answer.status ?? 200).type('html'),
        renderPage(answer.body, { say: parts.say, title: answer.title, visit, path, scripts: answer.scripts ?? [] }),
      );
  }
}

function problem(text: string, status: number): Answer {
  return { kind: 'page', title: text, body: h('p', {}), status };
}

function showSignIn(
  response: Response,
  parts: ConsoleParts,
  to: unknown,
  said?: { readonly text: string; readonly status: number },
): Promise<void> {
  const body = SignIn({ say: parts.say, problem: said?.text, to: pathIn(to) });
  return send(
    response,
    { kind: 'page', title: parts.say('access.title'), body, status: said?.status ?? 200 },
    { parts, path: '', visit: null },
  );
}

async function takeSignIn(request: Request, response: Response, parts: ConsoleParts): Promise<void> {
  const { name = '', password = '', to } = fieldsOf(request.body);
  const outcome = await signIn(name, password, parts);
  if (outcome.kind === 'in') {
    response.setHeader('set-cookie', outcome.cookie);
    response.redirect(303, `${root}${pathIn(to)}`);
    return;
  }
  parts.log.warn({ outcome: outcome.kind }, 'somebody could not sign in to the console');
  const text = outcome.kind === 'waits' ? parts.say('access.waits', { minutes: outcome.minutes }) : parts.say('access.wrong');
  await showSignIn(response, parts, to, { text, status: outcome.kind === 'waits' ? 429 : 403 });
}

async function takeSignOut(request: Request, response: Response, parts: ConsoleParts): Promise<void> {
  const session = await sessionOf(request.headers.cookie, parts);
  if (session !== null && isFromOurPage(session, fieldsOf(request.body).token)) {
    await parts.accounts.end(session.token);
    response.setHeader('set-cookie', noCookie(parts));
  }
  response.redirect(303, `${root}/sign-in`);
}

/** A path of ours to go to after signing in; anything else is the first page. */
function pathIn(to: unknown): string {
  return typeof to === 'string' && /^\/(?![/\\])[\w\-./?=&%~+:]*$/.test(to) ? to : '/';
}

/** Text by name; of a field sent twice the last; what is no text is left out. */
function fieldsOf(given: unknown): Record<string, string> {
  const fields: Record<string, string> = Object.create(null);
  for (const [name, value] of Object.entries((given ?? {}) as Record<string, unknown>)) {
    const last = Array.isArray(value) ? value.at(-1) : value;
    if (typeof last === 'string') fields[name] = last;
  }
  return fields;
}
