import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { reportFileName, safeLabel, visitFileName } from '../../../src-core/bridge/fileNames'
import { parseIsoDay } from '../../../src-core/units/wallClock'

const DAYS = { from: parseIsoDay('2026-03-02') ?? 0, to: parseIsoDay('2026-05-30') ?? 0 }

describe('the names under which files are offered', () => {
  it('carry the label, and without one only the days', () => {
    expect(reportFileName(DAYS, '')).toBe('visit-report-2026-03-02-to-2026-05-30.pdf')
    expect(reportFileName(DAYS, 'Thursday, room 4')).toBe(
      'Thursday, room 4 visit-report-2026-03-02-to-2026-05-30.pdf',
    )
    expect(visitFileName('Thursday, room 4')).toBe('Thursday, room 4.visit')
    expect([visitFileName(''), visitFileName(' . / ')]).toEqual(['visit.visit', 'visit.visit'])
  })

  it.each([
    ['../../etc/passwd', 'etc passwd'],
    ['a\\b:c*d?e"f<g>h|i', 'a b c d e f g h i'],
    ['.hidden', 'hidden'],
    ['ends with points...', 'ends with points'],
    ['line\nbreak\u0000and\u202Eturned', 'line break and turned'],
    ['CON', '_CON'],
    ['nul.txt', '_nul.txt'],
    ['Zoë Ångström 日本', 'Zoë Ångström 日本'],
    ['e\u0301', 'é'],
  ])('are made safe: %j', (label, safe) => {
    expect(safeLabel(label)).toBe(safe)
  })

  it('are names that every system takes, whatever the label', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (label) => {
        for (const name of [visitFileName(label), reportFileName(DAYS, label)]) {
          expect(new TextEncoder().encode(name).length).toBeLessThanOrEqual(255)
          expect(name).not.toMatch(/[<>:"/\\|?*\p{Cc}\p{Cf}\p{Cs}]|^[.\s]|[.\s]$/u)
          expect(name.toLowerCase()).not.toMatch(/^(con|prn|aux|nul|com\d|lpt\d)\./)
        }
      }),
    )
  })
})
