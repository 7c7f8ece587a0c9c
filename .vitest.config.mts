import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/editor-real/**', 'tests/bench/**', 'node_modules/**'],
    // As many as there are cores: on two, one alone would leave half of the machine idle.
    maxWorkers: '100%',
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
