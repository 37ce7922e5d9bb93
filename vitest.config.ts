import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['test/**/*.test.{ts,tsx}'],
    globalSetup: 'test/helpers/build.ts',
    // For what hangs, out of reach of any load: see test/helpers/waiting.ts.
    testTimeout: 1_800_000,
    hookTimeout: 1_800_000,
    expect: { poll: { timeout: 600_000 } },
    // By default one core is kept free, which on two halves the pace.
    maxWorkers: '100%',
  },
})
