import { join } from 'node:path'
import { runBundle } from '../program/codeCache'

// The command line; its work is in `reportCommand.ts`.
runBundle(join(import.meta.dirname, 'report.cjs'))
