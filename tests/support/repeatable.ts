// Generated tests draw from one seed, so that a run repeats another; SEED in the environment draws other cases.

import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.SEED ?? 20_261_126) });
