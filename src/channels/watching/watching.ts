// The doors for whoever watches the server: /healthz, the process runs; /readyz, it can take a turn; /metrics, how it stands, for those
// who have the token. Next: measures.ts.

import type { Express } from 'express';
import { isSecret } from '../secret.ts';
import type { Measures } from './measures.ts';

export interface Watching {
  /** Names of stores that a turn cannot do without and that do not answer. */
  readonly lacking: () => Promise<readonly string[]>;
  /** Left out: there is no such page. */
  readonly metrics?: { readonly token: string; readonly measures: Pick<Measures, 'page' | 'contentType'> };
}

export function watchingDoors(app: Express, watching: Watching | undefined): void {
  app.get('/healthz', (_request, response) => {
    response.type('text/plain').send('ok');
  });
  if (watching === undefined) return;
  const { lacking, metrics } = watching;
  app.get('/readyz', async (_request, response) => {
    const away = await lacking();
    response
      .status(away.length === 0 ? 200 : 503)
      .type('text/plain')
      .send(away.length === 0 ? 'ready' : `away: ${away.join(', ')}`);
  });
  if (metrics === undefined) return;
  app.get('/metrics', async (request, response) => {
    const [, token] = /^Bearer (.+)$/.exec(request.get('authorization') ?? '') ?? [];
    if (!isSecret([token], metrics.token)) {
      response.status(403).type('text/plain').send('token missing or wrong');
      return;
    }
    response.type(metrics.measures.contentType).send(await metrics.measures.page());
  });
}
