import { defineConfig } from 'vitest/config';

// No timed waits in tests: `now` is always an argument. The long limit is for the embedded database's first start.
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/support/repeatable.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
