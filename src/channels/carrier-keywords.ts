// Words that a carrier or gateway answers itself when they are the whole message. They reach us as well, and a second
// answer from us would be wrong, or refused. No dialog may use one of them. Next: take-text.ts.

/** Opt-out: later texts to this phone fail until it opts in again. */
const OPT_OUT: ReadonlySet<string> = new Set(['STOP', 'STOPALL', 'UNSUBSCRIBE', 'CANCEL', 'END', 'QUIT', 'REVOKE', 'OPTOUT']);
const OPT_IN: ReadonlySet<string> = new Set(['START', 'YES', 'UNSTOP']);
const INFORMATION: ReadonlySet<string> = new Set(['HELP', 'INFO']);

export type CarrierKeyword = 'opt-out' | 'opt-in' | 'information';

/**
 * What the carrier takes the message for; undefined when it is ours to answer.
 *
 * Takes    text: the whole message, in any case. optOutType: what the gateway itself says it did with it, if it does.
 */
export function readCarrierKeyword(text: string, optOutType?: string): CarrierKeyword | undefined {
  const words = [optOutType ?? '', text].map((word) => word.trim().toUpperCase());
  if (words.some((word) => OPT_OUT.has(word))) return 'opt-out';
  if (words.some((word) => OPT_IN.has(word))) return 'opt-in';
  // A type we do not know yet was still answered by the gateway.
  if (words[0] !== '' || words.some((word) => INFORMATION.has(word))) return 'information';
  return undefined;
}
