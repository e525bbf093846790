// Reference cases judged once for all checks that ask which rules are met in them. Next: rule-coverage.ts, alternative-coverage.ts.

import { judgedFacts } from '../../clinical/interpret.ts';
import type { Case, Protocol } from '../../clinical/protocol.ts';

type Judged = ReturnType<typeof judgedFacts>;

const known = new WeakMap<Protocol, WeakMap<Case, Judged>>();

export function judgedOnce(protocol: Protocol, input: Case): Judged {
  const own = known.get(protocol) ?? new WeakMap<Case, Judged>();
  known.set(protocol, own);
  const judged = own.get(input) ?? judgedFacts(protocol, input);
  own.set(input, judged);
  return judged;
}
