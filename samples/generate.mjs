// Writes the sample logs anew, byte for byte the same each time: node samples/generate.mjs
// What is in them and how it was made: README.md beside this file.

import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { europeMmol } from './generator/europeMmol.mjs'
import { seasonTwoMeters } from './generator/seasonTwoMeters.mjs'
import { techniqueMorning } from './generator/techniqueMorning.mjs'
import { twoMonths } from './generator/twoMonths.mjs'

const LOGS = {
  'season-two-meters.csv': seasonTwoMeters,
  'europe-mmol.csv': europeMmol,
  'technique-morning.csv': techniqueMorning,
  'two-months.csv': twoMonths,
}

for (const [name, makeLog] of Object.entries(LOGS)) {
  writeFileSync(join(import.meta.dirname, name), makeLog())
}
