// Which folder of src may import which. Run by `npm run imports`; imports.test.ts checks that it sees every file and that
// every rule catches what it is for. A rule's comment is printed when it is broken and says the mend.
// To open a new direction, change the table here, and say why in DEVELOPERS.md.

/** Each folder of src, the folders it may import besides itself, and what to do instead of importing another. */
const house = {
  clinical: {
    mayImport: [],
    mend: 'What findings mean depends on nothing of ours. Take the value as an argument, or move the caller up to dialog or conversation.',
  },
  messages: {
    mayImport: [],
    mend: 'Words know nothing of babies or dialogs. Take keys and values as arguments; compose them in conversation.',
  },
  dialog: {
    mayImport: ['clinical'],
    mend: 'A turn returns message keys and facts as data. Let conversation render and store them.',
  },
  'on-call': {
    mayImport: ['clinical'],
    mend: 'Rota and alerts are told what happened. Take it as an argument; conversation joins the two.',
  },
  authoring: {
    mayImport: ['clinical', 'messages', 'dialog', 'on-call'],
    mend: 'Authoring turns text into values. Hand the value to cli, which joins it to the rest.',
    typesFrom: ['conversation/ports.ts', 'conversation/records.ts', 'conversation/roster.ts'],
  },
  conversation: {
    mayImport: ['clinical', 'messages', 'dialog', 'on-call'],
    mend: 'The application reaches the world through ports only. Describe what it needs in conversation/ports.ts and pass it in from cli/wire.ts.',
  },
  planning: {
    mayImport: ['on-call'],
    mend: 'A plan is arithmetic and a simulated clock. Take what an examination costs, and what was measured, as arguments from cli.',
  },
  economy: {
    mayImport: ['clinical', 'messages', 'dialog', 'on-call', 'conversation'],
    mend: 'What an examination costs is counted on the real dialog, without stores. Take what else it needs as an argument from cli.',
  },
  sessions: {
    mayImport: ['clinical', 'messages', 'dialog', 'on-call', 'conversation'],
    mend: 'Adapters do not know each other. Go through a port of conversation/ports.ts, or take the shared thing as an argument.',
  },
  register: {
    mayImport: ['clinical', 'messages', 'dialog', 'on-call', 'conversation'],
    mend: 'Adapters do not know each other. Go through a port of conversation/ports.ts, or take the shared thing as an argument.',
  },
  channels: {
    mayImport: ['clinical', 'messages', 'dialog', 'on-call', 'conversation'],
    mend: 'Adapters do not know each other. Go through a port of conversation/ports.ts, or take the shared thing as an argument.',
  },
  console: {
    mayImport: ['clinical', 'messages', 'dialog', 'on-call', 'authoring', 'conversation'],
    mend: 'Pages read and write through ports. Take the port as an argument from cli/wire.ts.',
  },
};

const pure = '^src/(clinical|messages|dialog|on-call|planning)/';

/** Packages that compute and touch nothing: no file, no socket, no clock unless asked (passed-in.grit sees to that). */
const purePackages = ['@formatjs/icu-messageformat-parser', 'cephes', 'luxon'];

/** Packages that reach the outside, and the only folders that may hold them. */
const clients = [
  { packages: ['ioredis'], folders: ['sessions'] },
  { packages: ['pg', '@electric-sql/pglite'], folders: ['register'] },
  { packages: ['express', 'body-parser', 'helmet'], folders: ['channels', 'console'] },
  { packages: ['twilio', 'smpp'], folders: ['channels'] },
];

const inPackages = (names) => `node_modules/(${names.join('|')})/`;

const directions = Object.entries(house).flatMap(([folder, { mayImport, mend, typesFrom = [] }]) => {
  const allowed = [folder, ...mayImport].map((name) => `^src/${name}/`);
  const types = typesFrom.map((file) => `^src/${file}$`);
  const rules = [
    {
      name: `${folder}-imports`,
      severity: 'error',
      comment: `src/${folder} may import ${mayImport.length === 0 ? 'nothing of ours' : mayImport.join(', ')}. ${mend}`,
      from: { path: `^src/${folder}/` },
      to: { path: '^src/', pathNot: [...allowed, ...types, '^src/cli/'] },
    },
  ];
  if (types.length > 0)
    rules.push({
      name: `${folder}-imports-types`,
      severity: 'error',
      comment: `src/${folder} may take the types of ${typesFrom.join(', ')} and no code. Write "import type".`,
      from: { path: `^src/${folder}/` },
      to: { path: types, dependencyTypesNot: ['type-only'] },
    });
  return rules;
});

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...directions,
    {
      name: 'new-folder',
      severity: 'error',
      comment: 'This folder of src is not in the table of tests/architecture/imports.cjs. Give it its directions there, or move the file.',
      from: { path: '^src/', pathNot: [`^src/(${[...Object.keys(house), 'cli'].join('|')})/`] },
      to: {},
    },
    {
      name: 'cli-is-the-top',
      severity: 'error',
      comment: 'Nothing imports src/cli: it joins the parts. Move what is shared down to the folder whose subject it is.',
      from: { path: '^src/', pathNot: '^src/cli/' },
      to: { path: '^src/cli/' },
    },
    {
      name: 'pure-folders-touch-nothing',
      severity: 'error',
      comment:
        'A pure folder imports no built-in module of Node, and of packages only those listed in imports.cjs. Pass in what the outside says; let an adapter ask it.',
      from: { path: pure },
      to: { dependencyTypes: ['core', 'npm', 'npm-dev', 'npm-optional', 'npm-peer', 'npm-no-pkg'], pathNot: inPackages(purePackages) },
    },
    {
      name: 'authoring-is-given-text',
      severity: 'error',
      comment: 'Authoring is given texts, so that a draft in the console is checked as a file is. Read files in src/cli.',
      from: { path: '^src/authoring/' },
      to: { dependencyTypes: ['core'], path: '^(node:)?(fs|fs/promises|child_process|net|http|https|os|process)$' },
    },
    ...clients.map(({ packages, folders }) => ({
      name: `${packages[0]}-stays-home`,
      severity: 'error',
      comment: `${packages.join(', ')}: only in src/${folders.join(', src/')}, and in src/cli where the parts are joined. Use the port.`,
      from: { path: '^src/', pathNot: [...folders, 'cli'].map((folder) => `^src/${folder}/`) },
      to: { path: inPackages(packages) },
    })),
    {
      name: 'no-circle',
      severity: 'error',
      comment: 'These files import each other in a circle. Move what both need into a third file, or pass the function in.',
      from: {},
      to: { circular: true },
    },
    {
      name: 'no-orphan',
      severity: 'error',
      comment: 'No file imports this one and it imports none. Use it or delete it.',
      from: { path: '^src/', pathNot: ['\\.d\\.ts$', '^src/cli/pipit\\.ts$', '^src/console/client/'], orphan: true },
      to: {},
    },
    {
      name: 'reached-from-the-command',
      severity: 'error',
      comment: 'The pipit command never reaches this file: only tests use it, or nobody. Join it in src/cli/wire.ts or delete it.',
      from: { path: '^src/cli/pipit\\.ts$' },
      to: { path: '^src/', pathNot: ['\\.d\\.ts$', '^src/console/client/'], reachable: false },
    },
    {
      name: 'no-test-tools',
      severity: 'error',
      comment: 'A devDependency is not there when pipit runs. Move the package to "dependencies", or the code to tests.',
      from: { path: '^src/', pathNot: '^src/console/client/bundle\\.mjs$' },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'no-tests-in-src',
      severity: 'error',
      comment: 'src does not import tests. Move what the program needs into src.',
      from: { path: '^src/' },
      to: { path: '^tests/' },
    },
    {
      name: 'declared-packages-only',
      severity: 'error',
      comment: 'This package stands in no list of package.json and is there by chance. Add it to "dependencies".',
      from: { path: '^src/' },
      to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown'] },
    },
    {
      name: 'resolves',
      severity: 'error',
      comment: 'There is no such file or package. Relative imports end in ".ts"; mend the path.',
      from: { path: '^src/' },
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    // Types count: a folder that needs another's types depends on it.
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
      mainFields: ['module', 'main', 'types'],
    },
  },
};
