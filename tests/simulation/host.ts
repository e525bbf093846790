// One process of the application, as it stands on a machine: it answers texts, does what is due when it is woken or by its clock, and
// may die. The stores outlive it. Next: world.ts.

import { type Application, buildApplication } from '../../src/cli/application.ts';
import type { Register, Roster, SendText, Sessions } from '../../src/conversation/ports.ts';
import { inForce } from '../support/desk.ts';
import { type Caller, call, type LineParts, type LineTo, overLine } from './line.ts';
import { SECOND } from './times.ts';

export interface Host extends Caller {
  readonly receive: Application['receive'];
  /** There may be something to do; it is looked at by its clock. */
  notice(): void;
}

export interface HostParts extends LineParts {
  readonly sessions: Sessions;
  readonly register: Register;
  readonly roster: Roster;
  readonly send: SendText;
  /** When something is due next, as the stores say now. */
  readonly dueAt: () => Promise<number>;
  /** Called after each call of a store that was done. */
  readonly changed: LineTo['done'];
  readonly logged: (what: string) => void;
  readonly died: (host: Host) => void;
  /** So many are asked to take an alert at one time. */
  readonly askedAtOnce: number;
  /** How far the clock of its machine is off, in milliseconds. */
  readonly skew: number;
}

/** As often as the application looks by itself. */
const every = 5 * SECOND;
/** Calls that are one transaction with work of the process's own in it. */
const whole = ['workDue', 'tellOfLost'];

export function startHost(parts: HostParts): Host {
  const { scheduler } = parts;
  const line = { ...parts, done: parts.changed, whole };
  const published = inForce({ alertAskedAtOnce: parts.askedAtOnce });
  let isAlive = true;
  let isAtWork = false;
  let again = false;
  let looksAt = Number.POSITIVE_INFINITY;
  const host: Host = {
    get isAlive() {
      return isAlive;
    },
    kill() {
      if (!isAlive) return;
      isAlive = false;
      parts.died(host);
    },
    receive: (incoming) => application.receive(incoming),
    notice: () => lookAt(scheduler.now() + every),
  };
  const application = buildApplication({
    stores: {
      sessions: overLine(parts.sessions, 'sessions', host, line),
      register: overLine(parts.register, 'register', host, line),
    },
    roster: parts.roster,
    published: () => published,
    send: (text) =>
      call(
        host,
        'gateway',
        () => parts.send(text),
        () => ({ kind: 'unknown' }),
        parts,
      ),
    screen: { gsm7: 182, ucs2: 70 },
    sameTextMilliseconds: 6 * SECOND,
    now: () => scheduler.now() + parts.skew,
    pause: scheduler.pause,
    log: { info: () => {}, warn: (_about, what) => parts.logged(what), error: (_about, what) => parts.logged(what) },
    wakeSender: () => work(),
  });
  function work(): void {
    if (isAtWork) {
      again = true;
      return;
    }
    isAtWork = true;
    again = false;
    const over = (isMore: boolean): void => {
      isAtWork = false;
      if (isMore || again) work();
      else host.notice();
    };
    application.sendDue().then(
      (done) => over(done > 0),
      () => over(false),
    );
  }
  function lookAt(at: number): void {
    if (at >= looksAt) return;
    looksAt = at;
    scheduler.after(at - scheduler.now(), async () => {
      if (!isAlive || looksAt !== at) return;
      looksAt = Number.POSITIVE_INFINITY;
      const due = await parts.dueAt();
      if (due <= scheduler.now()) work();
      else if (due < Number.POSITIVE_INFINITY) lookAt(Math.max(due, scheduler.now() + every));
    });
  }
  host.notice();
  return host;
}
