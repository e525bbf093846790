// Erlang's two formulas. Requests come at random to equal servers, each is served for a random time. B: those who find all servers
// busy are lost. C: they wait, in the order in which they came. C is computed from B, and B by a recurrence in which nothing grows, so
// that thousands of servers are no harder than one. Pure. Next: desk.ts, which finds the same on a simulated clock.

/**
 * Erlang B: the probability that a request finds all servers busy, where nobody waits.
 *
 * Takes    servers: a whole number, 0 or more. erlangs: >= 0, requests in a mean time of service.
 * Returns  0 to 1; 1 with no servers.
 * Errors   an argument outside its range.
 * Source   A. K. Erlang, 1917; the recurrence B(c) = a B(c-1) / (c + a B(c-1)) of teletraffic textbooks. Checked in
 *          tests/planning/erlang.test.ts against printed tables and in exact arithmetic.
 */
export function probabilityOfBlocking(servers: number, erlangs: number): number {
  checkArguments(servers, erlangs);
  let blocking = 1;
  for (let count = 1; count <= servers; count += 1) blocking = nextBlocking(blocking, count, erlangs);
  return blocking;
}

/**
 * Erlang C: the probability that a request waits at all.
 *
 * Takes    servers, erlangs: as above.
 * Returns  0 to 1; 1 where there is as much to do as servers or more, since the queue then grows without end.
 * Errors   an argument outside its range.
 * Source   A. K. Erlang, 1917; C = c B / (c - a (1 - B)).
 */
export function probabilityOfWaiting(servers: number, erlangs: number): number {
  return waitingFrom(probabilityOfBlocking(servers, erlangs), servers, erlangs);
}

/**
 * The probability that a request is served within a time: P(W <= t) = 1 - C exp(-(c - a) t).
 *
 * Takes    servers, erlangs: as above. limit: >= 0, the time in mean times of service.
 * Returns  0 to 1; 0 where the queue grows without end.
 * Errors   an argument outside its range.
 * Source   waiting time of M/M/c in order of arrival, in any textbook of queueing.
 */
export function probabilityWithin(servers: number, erlangs: number, limit: number): number {
  checkLimit(limit);
  return withinFrom(probabilityOfWaiting(servers, erlangs), servers, erlangs, limit);
}

/**
 * The fewest servers with which at least this share of requests is served within a time.
 *
 * Takes    erlangs: >= 0. limit: >= 0, in mean times of service. level: 0 or more, below 1.
 * Returns  at least 1: somebody must be there, however rare a request is.
 * Errors   an argument outside its range.
 */
export function fewestServers(erlangs: number, limit: number, level: number): number {
  checkArguments(0, erlangs);
  checkLimit(limit);
  checkLevel(level);
  let blocking = 1;
  for (let servers = 1; ; servers += 1) {
    blocking = nextBlocking(blocking, servers, erlangs);
    if (servers > erlangs && withinFrom(waitingFrom(blocking, servers, erlangs), servers, erlangs, limit) >= level) return servers;
  }
}

/**
 * The most work with which these servers serve at least this share of requests within a time.
 *
 * Takes    servers: a whole number, 1 or more. limit, level: as above.
 * Returns  above 0 and below the number of servers, from below to within rounding.
 * Errors   an argument outside its range.
 */
export function mostErlangs(servers: number, limit: number, level: number): number {
  checkArguments(servers, 0);
  checkLimit(limit);
  checkLevel(level);
  if (servers === 0) throw new RangeError('No servers serve nobody in time. Give at least one.');
  let [enough, tooMuch] = [0, servers];
  for (let halving = 0; halving < 60; halving += 1) {
    const middle = (enough + tooMuch) / 2;
    if (probabilityWithin(servers, middle, limit) >= level) enough = middle;
    else tooMuch = middle;
  }
  return enough;
}

const nextBlocking = (before: number, servers: number, erlangs: number): number => (erlangs * before) / (servers + erlangs * before);

function waitingFrom(blocking: number, servers: number, erlangs: number): number {
  return erlangs >= servers ? 1 : (servers * blocking) / (servers - erlangs * (1 - blocking));
}

function withinFrom(waiting: number, servers: number, erlangs: number, limit: number): number {
  return erlangs >= servers ? 0 : 1 - waiting * Math.exp(-(servers - erlangs) * limit);
}

function checkArguments(servers: number, erlangs: number): void {
  if (!Number.isSafeInteger(servers) || servers < 0) throw new RangeError(`${servers} servers: give a whole number, 0 or more.`);
  if (!(erlangs >= 0 && Number.isFinite(erlangs))) throw new RangeError(`${erlangs} erlangs: give a number, 0 or more.`);
}

function checkLevel(level: number): void {
  if (!(level >= 0 && level < 1)) throw new RangeError(`A level of ${level}: give a share of at least 0 and below 1.`);
}

function checkLimit(limit: number): void {
  if (!(limit >= 0)) throw new RangeError(`A time limit of ${limit}: give a number of mean times of service, 0 or more.`);
}
