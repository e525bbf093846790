import { defineConfig } from 'vitest/config';

// No timed waits in tests: `now` is always an argument. The long limits are for starts of the embedded database, and of servers from
// TypeScript, on a machine that is busy with the other tests: a test fails by what it saw, not by how fast the machine is.
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/support/repeatable.ts'],
    testTimeout: 180_000,
    hookTimeout: 240_000,
  },
});
