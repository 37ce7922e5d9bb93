import { defineConfig } from 'vitest/config'

// Simulations and timings: `npm run bench`. No part of the tests, for they take long or depend on the machine.
export default defineConfig({
  test: { include: ['test/bench/**/*.bench.ts'], testTimeout: 600_000, fileParallelism: false },
})
