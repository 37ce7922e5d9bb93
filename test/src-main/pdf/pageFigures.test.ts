import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { reportJson } from '../../../src-core/exchange/reportJson'
import { fromMgDl, type GlucoseUnit } from '../../../src-core/units/glucose'
import { fixed } from '../../../src-core/units/rounding'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'
import { pdfOf } from '../../helpers/pages'
import { ENGLISH } from '../../../src-core/wording/english'

const has = (command: string) => spawnSync(command, ['-v']).status !== null

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-figures-'))
})
afterAll(() => {
  rmSync(folder, { recursive: true })
})

/** The pages as an independent reader lays out their text (pdftotext). */
function pagesOf(pdf: Uint8Array): readonly string[] {
  const path = join(folder, 'report.pdf')
  writeFileSync(path, pdf)
  return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1)
}

describe.skipIf(!has('pdftotext')).each(['mg/dL', 'mmol/L'] satisfies GlucoseUnit[])(
  'the first page in %s',
  (unit) => {
    const analysis = analysisOf(inventedLog({ days: 60, unit, centre: 120, spread: 0.35 }), { unit })
    const json = JSON.parse(JSON.stringify(reportJson(ENGLISH, analysis, { name: 'x', version: '1' }))) as {
      readonly periods: readonly {
        readonly asLogged: Readonly<Record<string, number>>
        readonly lows: { readonly readingsBelow70: number }
      }[]
    }
    const [{ asLogged, lows }] = json.periods
    const glucose = (mgDl: number) => fixed(fromMgDl(mgDl, unit), unit === 'mg/dL' ? 0 : 1)

    it('prints the headline figures of the JSON in its unit and rounding, lows before them', async () => {
      const [first, ...behind] = pagesOf(await pdfOf(analysis))
      const between = (text: string, from: string, to: string) =>
        text.slice(text.indexOf(from), text.indexOf(to))
      expect(first).toContain(`${asLogged.n} finger-sticks`)
      expect(first).toMatch(
        new RegExp(`Lows first\\s+\\d+ episodes?, ${lows.readingsBelow70} readings? below`),
      )
      const large = [
        glucose(asLogged.meanMgDl),
        glucose(asLogged.sdMgDl),
        `${fixed(asLogged.cvPercent, 0)} %`,
        `${fixed(asLogged.percentInTarget, 0)} %`,
      ]
      const inFull = [
        ...large,
        `median ${glucose(asLogged.medianMgDl)}`,
        `lowest ${glucose(asLogged.minMgDl)}`,
        `centre ${fixed(asLogged.estimatedA1cPercent, 1)}`,
      ]
      const numbers = between(behind.join(' '), 'The numbers', 'What stands out')
      for (const [text, figures] of [
        [between(first, 'Highs and numbers', 'The day'), large],
        [numbers, inFull],
      ] as const) {
        for (const figure of figures) {
          const words = figure.split(' ').join('\\s*')
          expect([figure, new RegExp(`(?<![\\d.])${words}(?![\\d.]\\d)`).test(text)]).toEqual([figure, true])
        }
      }
    })

    it('reads in the order of the page: each heading after the one above it', async () => {
      const [first] = pagesOf(await pdfOf(analysis))
      const places = [
        'Visit report',
        'Lows first',
        'Highs and numbers',
        'The day',
        'What stands out',
        'Can readings be trusted?',
      ].map((words) => first.indexOf(words))
      expect(places[0]).toBeGreaterThanOrEqual(0)
      expect(places).toEqual([...places].sort((a, b) => a - b))
    })
  },
)
