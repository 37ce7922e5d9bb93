import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { runCli } from '../../helpers/runCli'

const LOG = 'Date,Time,Glucose (mg/dL)\n2026-03-02,07:10,104\n2026-03-02,12:00,66\n2026-03-03,07:00,148\n'

let cwd: string
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), 'targets-'))
})
afterAll(() => {
  rmSync(cwd, { recursive: true })
})

describe('--targets', () => {
  it('is in the printed unit and stands in the JSON in mg/dL', () => {
    const args = ['-', '--no-pdf', '--json', '-', '--unit', 'mmol/L', '--targets']
    const { status, stdout } = runCli([...args, '3.5..7.8'], { cwd, input: LOG })
    expect(status).toBe(0)
    const json = JSON.parse(stdout) as {
      settings: object
      periods: { asLogged: { percentInTarget: number; percentBelow70: number } }[]
    }
    expect(json.settings).toMatchObject({ targetLow: 63, targetHigh: 140, targetPreset: 'none' })
    expect(json.periods[0].asLogged.percentInTarget).toBeCloseTo(200 / 3, 9)
    expect(json.periods[0].asLogged.percentBelow70).toBeCloseTo(100 / 3, 9)
    const preset = JSON.parse(runCli([...args, 'pregnancy'], { cwd, input: LOG }).stdout) as object
    expect(preset).toMatchObject({ settings: { targetLow: 63, targetHigh: 140, targetPreset: 'pregnancy' } })
  })

  it.each(['young', '180..70', '3.9..10.0', '70..9999'])(
    'ends with status 2 and writes nothing for %s',
    (text) => {
      const { status, stderr } = runCli(['-', '--targets', text], { cwd, input: LOG })
      expect(status).toBe(2)
      expect(stderr).toContain('--targets')
      expect(stderr).toContain('Usage:')
      expect(readdirSync(cwd)).toEqual([])
    },
  )
})

describe('--goal', () => {
  const tagged = LOG.replace(/(mg\/dL\))/, '$1,Meal')
    .replace(/(104|148)/g, '$1,fasting')
    .replace('66\n', '66,\n')

  it('holds readings before meals against the person’s own goal, in the printed unit', () => {
    const args = ['-', '--no-pdf', '--json', '-', '--targets', 'frail', '--goal', '110..150']
    const { status, stdout } = runCli(args, { cwd, input: tagged })
    expect(status).toBe(0)
    const json = JSON.parse(stdout) as { settings: object; periods: { byMeal: { moments: object[] } }[] }
    expect(json.settings).toMatchObject({ targetPreset: 'frail', goalLow: 110, goalHigh: 150 })
    expect(json.periods[0].byMeal.moments).toMatchObject([
      { moment: 'before-breakfast', goalLowMgDl: 110, goalHighMgDl: 150, withinGoal: 1 },
    ])
  })

  it('is kept with the visit', () => {
    const save = ['-', '--no-pdf', '--save', join(cwd, 'a.visit'), '--goal', '110..150']
    expect(runCli(save, { cwd, input: tagged }).status).toBe(0)
    const { stdout } = runCli([join(cwd, 'a.visit'), '--no-pdf', '--json', '-'], { cwd })
    expect(JSON.parse(stdout)).toMatchObject({ settings: { goalLow: 110, goalHigh: 150 } })
    rmSync(join(cwd, 'a.visit'))
  })

  it.each(['frail', '180..70', '5.0..8.3', '70..9999'])(
    'ends with status 2 and writes nothing for %s',
    (text) => {
      const { status, stderr } = runCli(['-', '--goal', text], { cwd, input: LOG })
      expect(status).toBe(2)
      expect(stderr).toContain('--goal')
      expect(readdirSync(cwd)).toEqual([])
    },
  )
})
