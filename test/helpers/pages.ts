import type { Analysis } from '../../src-core/analysis/analysis'
import type { PageOptions } from '../../src-core/report/context'
import { pageDocument } from '../../src-core/report/pageDocument'
import { parseIsoDay } from '../../src-core/units/wallClock'
import { renderPdf } from '../../src-main/pdf/pdf'
import { analysisOf, type FixtureReading, inventedLog } from './analysisFixture'
import { ENGLISH } from '../../src-core/wording/english'

export { pageTexts } from './pageTexts'

const OPTIONS: PageOptions = {
  paper: 'A4',
  label: null,
  madeAt: parseIsoDay('2026-06-04') ?? 0,
  programVersion: '0.1.0',
}
const MADE_AT_MS = Date.UTC(2026, 5, 4, 9)

export function documentOf(analysis: Analysis, options: Partial<PageOptions> = {}) {
  return pageDocument(ENGLISH, analysis, { ...OPTIONS, ...options })
}

const printed = new WeakMap<Analysis, Map<string, Promise<Uint8Array>>>()

/** The pages of an analysis as a PDF, made once for the same options. */
export function pdfOf(analysis: Analysis, options: Partial<PageOptions> = {}): Promise<Uint8Array> {
  const own = printed.get(analysis) ?? new Map<string, Promise<Uint8Array>>()
  printed.set(analysis, own)
  const key = JSON.stringify(options)
  const pdf = own.get(key) ?? renderPdf(ENGLISH, documentOf(analysis, options), { madeAtMs: MADE_AT_MS })
  own.set(key, pdf)
  return pdf
}

/** `n` lows, the first LO, each some days after the one before it, at changing hours. */
function lows(n: number): readonly FixtureReading[] {
  return Array.from({ length: n }, (_, i) => {
    const day = new Date(Date.UTC(2026, 2, 2 + i)).toISOString().slice(0, 10)
    return { at: `${day} ${String((i * 5) % 24).padStart(2, '0')}:48`, value: i === 0 ? 'LO' : 44 + (i % 26) }
  })
}

/** Logs at the edges of what a visit brings, each made when it is first asked for. */
const EDGE_LOGS = {
  'one reading': () => analysisOf([{ at: '2026-03-02 07:10', value: 104 }]),
  'one day without lows': () => analysisOf(inventedLog({ days: 1, repeats: 0 })),
  'days without times': () =>
    analysisOf(inventedLog({ days: 40 }).map((reading) => ({ ...reading, at: reading.at.slice(0, 10) }))),
  'forty lows, LO and HI': () =>
    analysisOf([
      ...inventedLog({ days: 60, repeats: 0.1 }),
      ...lows(40),
      { at: '2026-04-01 13:00', value: 'HI' },
    ]),
  'every second reading doubtful': () => analysisOf(inventedLog({ days: 60, repeats: 1, wrong: 1 })),
  'three meters, mmol/L': () =>
    analysisOf(
      inventedLog({ days: 90, unit: 'mmol/L' }).map((reading, i) => ({
        ...reading,
        meter: `meter ${'ABC'[i % 3]}`,
      })),
      { unit: 'mmol/L' },
    ),
  'ten years': () => analysisOf(inventedLog({ days: 3650, firstDay: '2016-03-02' })),
} as const satisfies Readonly<Record<string, () => Analysis>>
export type EdgeLog = keyof typeof EDGE_LOGS
export const EDGE_NAMES = Object.keys(EDGE_LOGS) as readonly EdgeLog[]

const made = new Map<EdgeLog, Analysis>()

/** A log at the edges of what a visit brings. */
export function edgeLog(name: EdgeLog): Analysis {
  const analysis = made.get(name) ?? EDGE_LOGS[name]()
  made.set(name, analysis)
  return analysis
}
