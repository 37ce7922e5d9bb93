import { defineConfig } from 'vitest/config'

/** Of functions alone, without state of their own: these share what they import, which saves most of a second a file. */
const PURE = ['test/src-core/**/*.test.ts', 'test/corpus/**/*.test.ts', 'test/reference/**/*.test.ts']

export default defineConfig(({ mode }) => ({
  test: {
    globalSetup: 'test/helpers/build.ts',
    // For what hangs, out of reach of any load: see test/helpers/waiting.ts.
    testTimeout: 1_800_000,
    hookTimeout: 1_800_000,
    expect: { poll: { timeout: 600_000 } },
    // By default one core is kept free, which on two halves the pace.
    maxWorkers: '100%',
    projects: [
      { extends: true, mode, test: { name: 'core', include: PURE, isolate: false } },
      { extends: true, mode, test: { name: 'program', include: ['test/**/*.test.{ts,tsx}'], exclude: PURE } },
    ],
  },
}))
