import { defineConfig } from 'vitest/config';

/** Tests run on the sources, so that no build is needed first. */
const source = { conditions: ['@valvetide/source'] };

export default defineConfig({
  resolve: source,
  ssr: { resolve: source },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'default',
          include: ['packages/*/test/**/*.test.ts', 'tests/**/*.test.ts'],
          exclude: ['tests/slow/**', '**/node_modules/**', '**/dist/**'],
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: { name: 'slow', include: ['tests/slow/**/*.test.ts'], testTimeout: 600_000 },
      },
    ],
  },
});
