// What is installed, as the lock file has it: each package with its version, its licence, and whether it ships or only builds and tests.
// Licences that may be: licences.json. Next: supply.test.ts, which holds them to it; licences.ts, which lists them.

import { textOf } from './tree.ts';

export interface Installed {
  readonly name: string;
  readonly version: string;
  /** An SPDX expression; undefined: it says none. */
  readonly licence: string | undefined;
  readonly ships: boolean;
  readonly runsOnInstall: boolean;
}

interface LockedPackage {
  readonly version: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly hasInstallScript?: boolean;
}

export function installedPackages(): Installed[] {
  const { packages } = JSON.parse(textOf('package-lock.json')) as { readonly packages: Readonly<Record<string, LockedPackage>> };
  return Object.entries(packages)
    .filter(([path]) => path !== '')
    .map(([path, { version, license, dev, hasInstallScript }]) => ({
      name: path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length),
      version,
      licence: license,
      ships: dev !== true,
      runsOnInstall: hasInstallScript === true,
    }));
}

const { shipped, development } = JSON.parse(textOf('tests/architecture/licences.json')) as {
  readonly shipped: readonly string[];
  readonly development: readonly string[];
};

/** Whether its licence lets us use it: of several to choose from, one; of several at once, all. */
export function mayBeUsed({ licence, ships }: Pick<Installed, 'licence' | 'ships'>): boolean {
  const allowed = ships ? shipped : [...shipped, ...development];
  const choices = (licence ?? '').replace(/[()]/g, '').split(' OR ');
  return choices.some((choice) => choice.split(' AND ').every((one) => allowed.includes(one)));
}
