import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import Module, { createRequire } from 'node:module'
import { dirname } from 'node:path'
import { setFlagsFromString } from 'node:v8'
import { Script } from 'node:vm'

/** Length of a SHA-256 sum, bytes (FIPS 180-4). */
const SUM_BYTES = 32

/**
 * V8 optimizes a function once it ran through so many bytes of its code, 67,584 by default. A report is made before
 * most of that work pays; what a long log keeps busy is still optimized. Measured in `test/bench/commandLine.bench.ts`.
 */
const BYTES_BEFORE_OPTIMIZING = 400_000

/**
 * V8 lets what lives on grow up to fourfold before it looks for what does not. By this much instead, percent, a log of a
 * million rows takes a tenth less memory and no measurable time more.
 */
const HEAP_GROWTH_PERCENT = 30

/** What is known of a program that runs. */
interface RunningBundle {
  /** What it exports. */
  readonly exported: unknown
  /** Whether compiled code stood beside the program, and fits. */
  readonly wasCompiled: boolean
  /** Writes the compiled code beside the program: all that was compiled until now. */
  readonly writeCompiled: () => void
}

/**
 * Runs a CommonJS program of one file, written in ASCII. Where code that V8 compiled of this very program with this
 * version of Node stands beside it, reading that takes a fraction of the time of compiling.
 * Throws where the program cannot be read.
 */
export function runBundle(file: string): RunningBundle {
  setFlagsFromString(`--interrupt-budget=${BYTES_BEFORE_OPTIMIZING}`)
  setFlagsFromString(`--heap-growing-percent=${HEAP_GROWTH_PERCENT}`)
  const source = readFileSync(file)
  const cachedData = compiledCode(file, source)
  const script = new Script(Module.wrap(source.toString('latin1')), { filename: file, cachedData })
  const module = { exports: {} }
  const run = script.runInThisContext() as (...args: readonly unknown[]) => void
  run(module.exports, createRequire(file), module, file, dirname(file))
  return {
    exported: module.exports,
    wasCompiled: cachedData !== undefined && script.cachedDataRejected === false,
    writeCompiled: () => {
      const code = script.createCachedData()
      writeFileSync(beside(file), Buffer.concat([sumOf(source, code), code]))
    },
  }
}

/** V8 itself rejects the code of another version, but neither that of another program nor a damaged one. */
function compiledCode(file: string, source: Buffer): Buffer | undefined {
  try {
    const kept = readFileSync(beside(file))
    const code = kept.subarray(SUM_BYTES)
    return kept.subarray(0, SUM_BYTES).equals(sumOf(source, code)) ? code : undefined
  } catch {
    return undefined
  }
}

function beside(file: string): string {
  return `${file}.compiled`
}

function sumOf(...parts: readonly Buffer[]): Buffer {
  const hash = createHash('sha256')
  for (const part of parts) hash.update(part)
  return hash.digest()
}
