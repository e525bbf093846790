// What stands around every page: head, navigation by role, caution. Text first: it works without scripts. Next: route.ts.

import type { ComponentChildren, VNode } from 'preact';
import { render } from 'preact-render-to-string';
import { coordinators, coordinatorsOfAll, everyone, mayOpen, type Route, root, type Visit } from './route.ts';
import type { Say } from './words.ts';

interface Section extends Pick<Route, 'roles' | 'ofAll'> {
  readonly name: string;
  readonly path: string;
  /** Where its pages stand besides below its own path. */
  readonly also?: string;
}

const pages: readonly Section[] = [
  { name: 'alerts', path: '/', roles: everyone, also: '/alerts' },
  { name: 'babies', path: '/babies', roles: everyone },
  { name: 'figures', path: '/figures', roles: coordinators },
  { name: 'texts', path: '/texts', roles: coordinators },
  { name: 'flows', path: '/flows', ...coordinatorsOfAll, also: '/edit' },
  { name: 'wording', path: '/wording', ...coordinatorsOfAll },
  { name: 'changes', path: '/changes', ...coordinatorsOfAll },
  { name: 'roster', path: '/roster', ...coordinatorsOfAll },
  { name: 'audit', path: '/audit', ...coordinatorsOfAll },
  { name: 'account', path: '/account', roles: everyone },
];

interface Around {
  readonly say: Say;
  readonly title: string;
  /** Null: nobody is signed in. */
  readonly visit: Pick<Visit, 'account' | 'facilities' | 'formToken'> | null;
  readonly path: string;
  readonly scripts: readonly string[];
}

export function renderPage(body: VNode, around: Around): string {
  return `<!doctype html>${render(<Page {...around}>{body}</Page>)}`;
}

export function renderPart(body: VNode): string {
  return render(body);
}

function Page({ say, title, visit, path, scripts, children }: Around & { readonly children: ComponentChildren }): VNode {
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        {visit === null ? null : <meta name="form-token" content={visit.formToken} />}
        <title>{`${title} · ${say('page.name')}`}</title>
        <link rel="icon" href="data:," />
        <link rel="stylesheet" href={`${root}/assets/style.css`} />
        {scripts.map((script) => (
          <script key={script} type="module" src={`${root}/assets/${script}.js`} />
        ))}
      </head>
      <body>
        <a class="skip" href="#content">
          {say('page.skip')}
        </a>
        <header class="top">
          <strong class="brand">{say('page.name')}</strong>
          {visit === null ? null : <Navigation say={say} visit={visit} path={path} />}
        </header>
        <main id="content" tabIndex={-1}>
          <h1>{title}</h1>
          {children}
        </main>
        <footer>{say('page.caution')}</footer>
      </body>
    </html>
  );
}

function Navigation({ say, visit, path }: Pick<Around, 'say' | 'path'> & { readonly visit: NonNullable<Around['visit']> }): VNode {
  const { account, formToken } = visit;
  const seen = pages.filter((page) => mayOpen(page, visit));
  const current = seen.find(({ path: own, also }) => isUnder(path, own) || (also !== undefined && isUnder(path, also)));
  return (
    <>
      <nav aria-label={say('page.nav')}>
        <ul>
          {seen.map((page) => (
            <li key={page.name}>
              <a href={`${root}${page.path}`} aria-current={page === current ? 'page' : undefined}>
                {say(`nav.${page.name}`)}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <form class="who" method="post" action={`${root}/sign-out`}>
        <input type="hidden" name="token" value={formToken} />
        <span>{say('page.signed-in', { name: account.name, role: account.role })}</span>
        <button type="submit">{say('access.out')}</button>
      </form>
    </>
  );
}

/** Everything is under the first page; only it itself counts. */
function isUnder(path: string, section: string): boolean {
  return path === section || (section !== '/' && path.startsWith(`${section}/`));
}
