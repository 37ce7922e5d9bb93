import { runReport } from './reportBundle'

// Run by the build: makes the report that it is asked for, then keeps what was compiled for it.
process.once('exit', runReport(import.meta.dirname).writeCompiled)
