// What goes to a browser goes packed where the browser takes it so: a nurse's line may be slow and is paid by the byte. Pages hold the
// form's token beside words that came in with the address; they may be packed since the cookie goes to no page that another site asks for.

import { readFile, stat } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import type { RequestHandler, Response } from 'express';

const pack = promisify(gzip);
/** Less than fits one packet is not worth it. */
const fewestBytes = 1400;

/** Takes  body: text of the response's own type. */
export async function sendPacked(response: Response, body: string): Promise<void> {
  response.vary('accept-encoding');
  if (Buffer.byteLength(body) < fewestBytes || !response.req.acceptsEncodings('gzip')) response.send(body);
  else response.setHeader('content-encoding', 'gzip').send(await pack(body));
}

interface PackedFile {
  readonly changedAt: number;
  readonly packed: Buffer;
}

/** The scripts and style sheets of a folder, by `:name`. A browser asks each time, and is sent only what changed. */
export function packedFiles(folder: string): RequestHandler<{ readonly name: string }> {
  const known = new Map<string, PackedFile>();
  return async (request, response, next) => {
    const { name } = request.params;
    if (!/^[\w-]+(\.[\w-]+)+$/.test(name)) return next();
    const path = join(folder, name);
    const changedAt = await stat(path).then(
      ({ mtimeMs }) => mtimeMs,
      () => null,
    );
    if (changedAt === null) return next();
    response.vary('accept-encoding').type(extname(name)).setHeader('cache-control', 'no-cache');
    if (!request.acceptsEncodings('gzip')) {
      response.send(await readFile(path));
      return;
    }
    const kept = known.get(name);
    const file = kept?.changedAt === changedAt ? kept : { changedAt, packed: await pack(await readFile(path)) };
    known.set(name, file);
    response.setHeader('content-encoding', 'gzip').send(file.packed);
  };
}
