import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import type { Analysis } from '../../src-core/analysis/analysis'
import { openVisit, type VisitOptions } from '../../src-core/analysis/openVisit'
import { reportJson } from '../../src-core/exchange/reportJson'
import { CONTEXT, logOf } from '../helpers/logs'
import { ENGLISH } from '../../src-core/wording/english'

const SCRIPT = join(import.meta.dirname, 'figures.R')

export type Figure = null | boolean | number | string | readonly Figure[] | { readonly [key: string]: Figure }
export type Figures = Readonly<Record<string, { readonly [key: string]: Figure }>>

/** Whether R is installed. */
export const hasR = spawnSync('Rscript', ['--version']).status === 0

/** The figures of logs as the script computes them; given analyses, also what hangs on their doubtful readings. */
export function figuresByR(paths: readonly string[], analyses?: readonly Analysis[]): Figures {
  const folder = mkdtempSync(join(tmpdir(), 'visit-report-figures-'))
  try {
    const doubtful = join(folder, 'doubtful.csv')
    const lines = paths.flatMap((path, i) =>
      (analyses?.[i].technique.doubtful ?? []).map(
        ({ index }) => `${basename(path)},${String(analyses?.[i].readings.line[index])}`,
      ),
    )
    writeFileSync(doubtful, ['log,line', ...lines, ''].join('\n'))
    const options = analyses === undefined ? [] : ['--doubtful', doubtful]
    const run = spawnSync('Rscript', [SCRIPT, ...options, ...paths], {
      encoding: 'utf8',
      maxBuffer: 2 ** 28,
      env: { ...process.env, LC_ALL: 'C.UTF-8' },
    })
    if (run.status !== 0) throw new Error(run.stderr)
    return JSON.parse(run.stdout) as Figures
  } finally {
    rmSync(folder, { recursive: true })
  }
}

/** The analysis of a log file. */
export function analysed(path: string, options: VisitOptions = {}): Analysis {
  const outcome = openVisit([logOf(new Uint8Array(readFileSync(path)), basename(path))], options, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error(`${path}: ${JSON.stringify(outcome)}`)
  return outcome.analysis
}

/** The program's figures as a reader of the file gets them. */
export function figuresOf(analysis: Analysis): Figure {
  return JSON.parse(
    JSON.stringify(reportJson(ENGLISH, analysis, { name: 'visit-report', version: '1' })),
  ) as Figure
}

/** What rests on Student's t, whose quantiles the program's library knows to 1e-7. */
const OF_T = /(^|\.)(ci95(\.|$)|median\w*Ci95|balancedMeanCi95|percent\w+Ci95|blocks\.\d+\.p$)/

/**
 * How many figures were compared, and where the program's are not those of the reference to 1e-9 of their size (1e-6
 * where Student's t is in them).
 */
export function compareFigures(
  program: Figure | undefined,
  reference: Figure,
  place = '',
): { compared: number; apart: string[] } {
  if (typeof reference === 'object' && reference !== null) {
    const both = { compared: 0, apart: [] as string[] }
    if (Array.isArray(reference) && (!Array.isArray(program) || program.length !== reference.length)) {
      return { compared: 1, apart: [`${place}: not a list of ${reference.length}`] }
    }
    for (const [key, value] of Object.entries(reference)) {
      const part = (program as Readonly<Record<string, Figure>> | null | undefined)?.[key]
      const { compared, apart } = compareFigures(
        part,
        value as Figure,
        place === '' ? key : `${place}.${key}`,
      )
      both.compared += compared
      both.apart.push(...apart)
    }
    return both
  }
  const same =
    typeof program === 'number' && typeof reference === 'number'
      ? Math.abs(program - reference) <=
        (OF_T.test(place) ? 1e-6 : 1e-9) * Math.max(Math.abs(reference), Math.abs(program), 1e-3)
      : program === reference
  return {
    compared: 1,
    apart: same ? [] : [`${place}: ${JSON.stringify(program)}, reference ${JSON.stringify(reference)}`],
  }
}
