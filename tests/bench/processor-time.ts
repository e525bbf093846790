// The clock of what runs in this process alone: seconds that a processor spent on it, so that others on the same machine
// count for less. Threads of the engine (collecting, compiling) are in it.

export function processorSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1_000_000;
}
