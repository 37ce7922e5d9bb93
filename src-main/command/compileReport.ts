import { join } from 'node:path'
import { runBundle } from '../program/codeCache'

// Run by the build: makes the report that it is asked for, then keeps what was compiled for it.
process.once('exit', runBundle(join(import.meta.dirname, 'report.cjs')).writeCompiled)
