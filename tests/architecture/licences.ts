// `npm run licences`: every installed package with its licence, those that ship first; exit code 1 when one may not be used.

import { installedPackages, mayBeUsed } from './supply.ts';

const sorted = installedPackages().sort((a, b) => Number(b.ships) - Number(a.ships) || a.name.localeCompare(b.name));
for (const one of sorted) {
  const isFine = mayBeUsed(one);
  const line = [
    one.ships ? 'ships' : 'development',
    `${one.name}@${one.version}`,
    one.licence ?? 'no licence',
    ...(isFine ? [] : ['NOT ALLOWED']),
  ];
  process.stdout.write(`${line.join('  ')}\n`);
  if (!isFine) process.exitCode = 1;
}
