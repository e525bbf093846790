// A relay before a store or a gateway, on a loopback port of its own: it passes every piece on, and can be away, hang, or
// tell of each piece just before it goes on. So a test chooses the moment of a fault by what happens, not by the clock.

import { type AddressInfo, connect, createServer, type Server, type Socket } from 'node:net';

/** Where a piece is going: to the store or gateway behind the relay, or back to who asked it. */
export type Direction = 'there' | 'back';

export interface Piece {
  readonly direction: Direction;
  readonly bytes: Buffer;
}

export interface Relay {
  readonly port: number;
  /** Called with each piece just before it goes on; it may hang or cut the relay there and then. */
  onPiece: (piece: Piece) => void;
  /** Pieces that wait because the relay hangs. */
  waiting(): readonly Piece[];
  /** Connections stay open, and nothing that goes this way arrives. */
  hang(directions?: readonly Direction[]): void;
  /** What waited goes on. */
  goOn(): void;
  /** Cuts every connection, and loses what waited; takes new ones. */
  cut(): void;
  /** Cuts every connection and refuses new ones. */
  leave(): Promise<void>;
  comeBack(): Promise<void>;
  close(): Promise<void>;
}

export async function startRelay(behind: { readonly port: number; readonly host?: string }): Promise<Relay> {
  const sockets = new Set<Socket>();
  const hanging = new Set<Direction>();
  let queue: { piece: Piece; to: Socket }[] = [];
  let server: Server;
  let port = 0;

  const pass = (from: Socket, to: Socket, direction: Direction): void => {
    sockets.add(from);
    from.on('data', (bytes: Buffer) => {
      const piece = { direction, bytes };
      relay.onPiece(piece);
      if (hanging.has(direction)) queue.push({ piece, to });
      else to.write(bytes);
    });
    from.on('error', () => {});
    from.on('close', () => {
      sockets.delete(from);
      // Not destroyed: what was passed on just before still arrives.
      to.end();
    });
  };
  const open = async (): Promise<void> => {
    server = createServer((near) => {
      const far = connect({ port: behind.port, host: behind.host ?? '127.0.0.1' });
      pass(near, far, 'there');
      pass(far, near, 'back');
    });
    await new Promise<void>((resolve, reject) => server.once('error', reject).listen(port, '127.0.0.1', resolve));
    port = (server.address() as AddressInfo).port;
  };
  const cut = (): void => {
    for (const socket of sockets) socket.destroy();
    queue = [];
    hanging.clear();
  };
  const leave = async (): Promise<void> => {
    const closed = new Promise<void>((resolve) => server.close(() => resolve()));
    cut();
    await closed;
  };
  await open();
  const relay: Relay = {
    port,
    onPiece: () => {},
    waiting: () => queue.map(({ piece }) => piece),
    hang: (directions = ['there', 'back']) => {
      for (const direction of directions) hanging.add(direction);
    },
    goOn: () => {
      hanging.clear();
      const waited = queue;
      queue = [];
      for (const { piece, to } of waited) to.write(piece.bytes);
    },
    cut,
    leave,
    comeBack: open,
    close: leave,
  };
  return relay;
}
