// Loaded before a server: its clock is off by as many milliseconds as the file says that CLOCK_FILE names, and steps when the file is
// written anew. Timers go on as they do on a machine whose clock is set: by themselves.

import { readFileSync } from 'node:fs';

const file = process.env.CLOCK_FILE;
const RealDate = Date;
const offset = (): number => (file === undefined ? 0 : Number(readFileSync(file, 'utf8')));
const now = (): number => RealDate.prototype.getTime.call(new RealDate()) + offset();

globalThis.Date = new Proxy(RealDate, {
  construct: (target, values) => Reflect.construct(target, values.length === 0 ? [now()] : values) as object,
  get: (target, name) => (name === 'now' ? now : Reflect.get(target, name)),
});
