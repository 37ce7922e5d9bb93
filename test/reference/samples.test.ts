import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { parseIsoDay } from '../../src-core/units/wallClock'
import { analysed, compareFigures, type Figures, figuresByR, figuresOf, hasR } from './referenceFigures'

// samples.json holds what R 4.2.2 (base R alone) made of the sample logs:
//   Rscript test/reference/figures.R samples/*.csv > test/reference/samples.json

const SAMPLES = join(import.meta.dirname, '../../samples')
const KEPT = JSON.parse(readFileSync(join(import.meta.dirname, 'samples.json'), 'utf8')) as Figures
const LOGS = readdirSync(SAMPLES).filter((file) => file.endsWith('.csv'))

function span(text: string) {
  const [from, to] = text.split('..').map(parseIsoDay)
  if (from === null || to === null) throw new Error(`no period: ${text}`)
  return { from, to }
}

/** The program's figures of the whole log, and of the pair of periods that the reference compares. */
function compared(log: string, reference: Figures[string]) {
  const { comparison, compared: periods, ...whole } = reference
  const path = join(SAMPLES, log)
  const figures = compareFigures(figuresOf(analysed(path)), whole)
  if (periods === undefined) return figures
  const { first, second } = periods as Readonly<Record<string, string>>
  const two = figuresOf(analysed(path, { period: span(first), versus: span(second) }))
  const between = compareFigures((two as Figures[string]).comparison, comparison, 'comparison')
  return { compared: figures.compared + between.compared, apart: [...figures.apart, ...between.apart] }
}

describe('the figures of the sample logs', () => {
  it('are kept for every one of them', () => {
    expect(Object.keys(KEPT).sort()).toEqual([...LOGS].sort())
  })

  it.each(LOGS)('of %s are those that R computes from the log itself', (log) => {
    const { compared: count, apart } = compared(log, KEPT[log])
    expect(apart).toEqual([])
    expect(count).toBeGreaterThan(1000)
  })

  it.skipIf(!hasR)('come out of R again as they are kept (skipped where R is not installed)', () => {
    const again = figuresByR(LOGS.map((log) => join(SAMPLES, log)))
    expect(compareFigures(again, KEPT).apart).toEqual([])
  })

  it.skipIf(!hasR)(
    'without the doubtful readings, and of repeats by consensus, are R’s too (skipped where R is not installed)',
    () => {
      const paths = LOGS.map((log) => join(SAMPLES, log))
      const reference = figuresByR(
        paths,
        paths.map((path) => analysed(path)),
      )
      for (const log of LOGS) {
        expect(reference[log]).toHaveProperty('periods.0.checked.meanMgDl')
        expect([log, compared(log, reference[log]).apart]).toEqual([log, []])
      }
    },
  )
})
