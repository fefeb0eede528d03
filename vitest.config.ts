import { defineConfig } from 'vitest/config';

/** Tests run on the sources, so that no build is needed first. */
const source = { conditions: ['@valvetide/source'] };

export default defineConfig({
  resolve: source,
  ssr: { resolve: source },
  test: {
    // Every core: vitest leaves one free, which is half of a machine of two.
    maxWorkers: '100%',
    setupFiles: ['tests/seededProperties.ts'],
    // Asked for by --coverage alone: what of core the fast tests run.
    coverage: {
      provider: 'v8',
      include: ['packages/core/src/**/*.ts'],
      reporter: ['text-summary', 'json-summary', 'html'],
      // Just below what was measured: no new code goes unrun in silence.
      thresholds: { lines: 99, branches: 95 },
      // Which tests failed is said beside it: a busy machine that fails one by its clock has run the rest.
      reportOnFailure: true,
    },
    projects: [
      {
        extends: true,
        test: {
          name: 'default',
          include: ['packages/*/test/**/*.test.ts', 'tests/**/*.test.ts'],
          exclude: [
            'tests/slow/**',
            'tests/package/**',
            'tests/browser/**',
            'tests/queue/**',
            '**/node_modules/**',
            '**/dist/**',
          ],
          testTimeout: 30_000,
          // Nothing here is mocked or kept between tests, so that files may share the modules they load.
          isolate: false,
        },
      },
      {
        extends: true,
        test: { name: 'slow', include: ['tests/slow/**/*.test.ts'], testTimeout: 600_000 },
      },
      {
        // The packed tarballs, installed and used from outside: the only tests that need a build.
        extends: true,
        test: {
          name: 'package',
          include: ['tests/package/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 300_000,
        },
      },
      {
        // The built command over a real server, redis-server from the system's packages.
        extends: true,
        test: {
          name: 'queue',
          include: ['tests/queue/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 60_000,
        },
      },
      {
        // In the system's own Chromium: pages as people see them, and the library outside of Node.
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 60_000,
          hookTimeout: 300_000,
        },
      },
    ],
  },
});
