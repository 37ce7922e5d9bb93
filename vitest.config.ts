import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['test/**/*.test.{ts,tsx}'],
    globalSetup: 'test/helpers/build.ts',
    testTimeout: 60_000,
    expect: { poll: { timeout: 20_000 } },
    // By default one core is kept free, which on two halves the pace.
    maxWorkers: '100%',
  },
})
