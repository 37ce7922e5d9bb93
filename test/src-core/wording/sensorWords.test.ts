import { TOLD_LIMITS } from '../../../src-core/told/limits'
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { pictureScreen } from '../../../src-core/bridge/pictureScreen'
import { visitView } from '../../../src-core/bridge/visitView'
import { reportJson } from '../../../src-core/exchange/reportJson'
import { definitionsTold } from '../../../src-core/told/method'
import { definitions } from '../../../src-core/wording/english/method'
import { terminalSummary } from '../../../src-core/report/terminalSummary'
import { CONTEXT, logOf } from '../../helpers/logs'
import { documentOf } from '../../helpers/pages'
import { sample } from '../../helpers/runCli'
import { ENGLISH } from '../../../src-core/wording/english'

// Shares of time and the glucose management indicator are defined for sensors: Battelino et al., Diabetes Care
// 2019;42:1593-1603; Bergenstal et al., Diabetes Care 2018;41:2275-2280.

const OF_SENSORS = /time in range|\bTIR\b|\bGMI\b|gmiPercent|management indicator/i

function opened(text: string): Analysis {
  const outcome = openVisit([logOf(text)], {}, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error(JSON.stringify(outcome))
  return outcome.analysis
}

/** A reading of `value` every 15 minutes for ten days. */
function sensorLog(value: (i: number) => number): string {
  const rows = Array.from({ length: 960 }, (_, i) => {
    const at = new Date(Date.UTC(2026, 2, 2, 0, 15 * i)).toISOString()
    return `${at.slice(0, 10)} ${at.slice(11, 16)},${value(i)}`
  })
  return `Time,Glucose (mg/dL)\n${rows.join('\n')}\n`
}

/** Everything that is told of a log, by where. */
function told(analysis: Analysis): Readonly<Record<string, string>> {
  return {
    pages: JSON.stringify(documentOf(analysis).content),
    terminal: terminalSummary(ENGLISH, analysis, ['report.pdf']).join('\n'),
    window: JSON.stringify([visitView(ENGLISH, analysis, CONTEXT), pictureScreen(ENGLISH, analysis)]),
    json: JSON.stringify(reportJson(ENGLISH, analysis, { name: 'visit-report', version: '1' })),
  }
}

describe.each(['season-two-meters', 'europe-mmol', 'technique-morning', 'two-months'])('%s', (name) => {
  const texts = told(opened(readFileSync(sample(`${name}.csv`), 'utf8')))

  it.each(Object.keys(texts))('says nothing in %s that is meant for sensors', (where) => {
    expect(texts[where]).not.toMatch(OF_SENSORS)
  })

  it('calls its share one of readings', () => {
    expect(texts.terminal).toMatch(/\d % of readings from /)
    expect(texts.window).toContain('of readings, not of time')
    expect(texts.pages).toContain('of readings, not of time')
  })
})

describe('the log of a sensor', () => {
  // 100 to 159 mg/dL, every tenth 200: mean 136.55; 3.31 + 0.02392 x 136.55 = 6.576.
  const analysis = opened(sensorLog((i) => (i % 10 === 0 ? 200 : 100 + (i % 60))))
  const texts = told(analysis)

  it('has time in range wherever finger-sticks have a percent of readings', () => {
    expect(analysis.periods[0].kind).toBe('sensor')
    expect(texts.pages).toContain('Time in range 70 to 180')
    expect(texts.terminal).toContain('time in range 70 to 180 mg/dL 90 %')
    expect(texts.window).toContain('Time in range 70 to 180')
    for (const where of ['pages', 'terminal', 'window']) {
      expect(texts[where]).not.toMatch(/% of readings|of readings, not of time|not a share of time/)
    }
  })

  it('has the glucose management indicator on page 1, on the terminal and in the JSON, and its formula', () => {
    const mean = analysis.periods[0].asLogged.meanMgDl ?? NaN
    const printed = (3.31 + 0.02392 * mean).toFixed(1)
    expect(texts.pages).toContain(`glucose management indicator ${printed} %`)
    expect(texts.terminal).toContain(`glucose management indicator ${printed} %`)
    expect(texts.json).toContain('"gmiPercent":')
    const formula = definitions(definitionsTold('sensor'), TOLD_LIMITS, analysis.settings, [], 'sensor').find(
      ({ how }) => how.includes('0.02392'),
    )
    expect(formula?.source).toContain('Diabetes Care 2018;41:2275')
  })
})
