import { defineConfig } from 'vitest/config'
import { LongestFirst } from './test/helpers/longestFirst.ts'

/** Of functions alone, without state of their own: these share what they import, which saves most of a second a file. */
const PURE = ['test/src-core/**/*.test.ts', 'test/corpus/**/*.test.ts', 'test/reference/**/*.test.ts']

/**
 * What takes longest, each file some seconds and more: browsers, programs started one after the other, thousands of
 * drawn logs. `npm run check` leaves it out; `npm test` has all.
 */
const SLOW_PURE = [
  'test/corpus/*.test.ts',
  'test/reference/*.test.ts',
  'test/src-core/analysis/{identities,naiveTwin}.test.ts',
  'test/src-core/bridge/noOptions.test.ts',
  'test/src-core/charts/{contextPicture,dayPicture,pagePictures}.test.ts',
  'test/src-core/exchange/{fhirBundle,readingsCsv,schema}.test.ts',
  'test/src-core/findings/findings.test.ts',
  'test/src-core/log/fhir/readFhir.test.ts',
  'test/src-core/log/layouts/*.test.ts',
  'test/src-core/log/{characterSets,hostileLogs,logbook,mutatedLogs,oddUnits,openLogs,oracles,records,waysToRead}.test.ts',
  'test/src-core/report/*.test.ts',
  'test/src-core/visit/visitReport.test.ts',
  'test/src-core/wording/{catalogue,misfit,outside,sensorWords}.test.ts',
]
/** Programs and browsers are started for these; in the test's own process they leave nothing, and share what they import. */
const SLOW_SHARING = [
  'test/journeys/*.test.ts',
  'test/src-main/command/*.test.ts',
  'test/src-main/pdf/*.test.ts',
]
const SLOW = [
  'test/src-main/files/{attachments,protection}.test.ts',
  'test/src-main/window/{crashes,failingSaves,savedVisits,traces,visitKeeping}.test.ts',
]

export default defineConfig(({ mode }) => ({
  test: {
    globalSetup: 'test/helpers/build.ts',
    // For what hangs, out of reach of any load: see test/helpers/waiting.ts.
    testTimeout: 1_800_000,
    hookTimeout: 1_800_000,
    expect: { poll: { timeout: 600_000 } },
    // By default one core is kept free, which on two halves the pace.
    maxWorkers: '100%',
    sequence: { sequencer: LongestFirst },
    projects: [
      { extends: true, mode, test: { name: 'core', include: PURE, exclude: SLOW_PURE, isolate: false } },
      { extends: true, mode, test: { name: 'slow core', include: SLOW_PURE, isolate: false } },
      {
        extends: true,
        mode,
        test: {
          name: 'program',
          include: ['test/**/*.test.{ts,tsx}'],
          exclude: [...PURE, ...SLOW_SHARING, ...SLOW],
        },
      },
      { extends: true, mode, test: { name: 'slow shared', include: SLOW_SHARING, isolate: false } },
      { extends: true, mode, test: { name: 'slow program', include: SLOW } },
    ],
  },
}))
