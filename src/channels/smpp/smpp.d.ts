// smpp brings no types. What this project calls, and no more. Remove when the package has its own.

declare module 'smpp' {
  import type { EventEmitter } from 'node:events';
  import type { Server as NetServer } from 'node:net';

  export interface Pdu {
    readonly command: string;
    readonly command_status: number;
    readonly sequence_number: number;
    /** Every field of the command, and every optional parameter, by its name. */
    readonly [field: string]: unknown;
    isResponse(): boolean;
    response(options?: Readonly<Record<string, unknown>>): Pdu;
    toBuffer(): Buffer;
  }

  export interface Session extends EventEmitter {
    readonly socket: import('node:net').Socket;
    /** False: the connection takes nothing any more. */
    send(pdu: Pdu, answered?: (answer: Pdu) => void): boolean;
    close(): void;
    destroy(): void;
  }

  interface Field {
    readonly type: unknown;
    readonly default?: unknown;
  }

  const smpp: {
    readonly PDU: new (command: string, fields?: Readonly<Record<string, unknown>>) => Pdu;
    readonly types: Readonly<Record<'int8' | 'cstring' | 'buffer', unknown>> & { readonly tlv: Readonly<Record<'buffer', unknown>> };
    connect(options: { readonly host: string; readonly port: number; readonly tls: boolean }): Session;
    createServer(listener: (session: Session) => void): NetServer;
    addCommand(command: string, options: { readonly id: number; readonly params: Readonly<Record<string, Field>> }): void;
    addTLV(tag: string, options: { readonly id: number; readonly type: unknown }): void;
  };
  export default smpp;
}
