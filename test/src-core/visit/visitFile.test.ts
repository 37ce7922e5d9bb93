import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { PLAIN_HEADER, readVisit, visitText } from '../../../src-core/visit/visitFile'
import { VISIT_FILE } from '../../../src-core/wording/english/visitFile'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { anyVisit, visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

const VISIT: Visit = {
  ...EMPTY_VISIT,
  logs: [visitLog('a.csv', 'first'), visitLog('b.csv', 'second')],
  typed: [{ at: '2026-03-02T07:10', value: 104, unit: 'mg/dL', note: 'before "breakfast"' }],
  kit: { questions: ['Is it the strips?'] },
  label: 'Thursday',
}
const TEXT = visitText(VISIT, BYTE_TOOLS)
const LINES = TEXT.trimEnd().split('\n')
/** Lines: header, settings, kit, typed, two logs, end. */
const [HEADER, SETTINGS, KIT, TYPED, FIRST, SECOND, END] = LINES

function read(lines: readonly string[]) {
  return readVisit(ENGLISH, `${lines.join('\n')}\n`, BYTE_TOOLS)
}
function damageOf(lines: readonly string[]): readonly string[] {
  const result = read(lines)
  return result.kind === 'read' ? result.damage : [result.message]
}
function unchecked(part: object): string {
  return JSON.stringify(part)
}

describe('the file of a visit', () => {
  it('gives back any visit', () => {
    fc.assert(
      fc.property(anyVisit, (visit) => {
        expect(readVisit(ENGLISH, visitText(visit, BYTE_TOOLS), BYTE_TOOLS)).toEqual({
          kind: 'read',
          visit,
          damage: [],
        })
      }),
    )
  })

  it('is the same text for the same visit, and the same visit with Windows line ends or blank lines', () => {
    expect(visitText(structuredClone(VISIT), BYTE_TOOLS)).toBe(TEXT)
    for (const text of [TEXT.replaceAll('\n', '\r\n'), TEXT.replaceAll('\n', '\n\n'), TEXT.trimEnd()]) {
      expect(readVisit(ENGLISH, text, BYTE_TOOLS)).toEqual({ kind: 'read', visit: VISIT, damage: [] })
    }
  })

  it('has each part on one line of printable text, with the checksum of what follows', () => {
    expect(LINES).toHaveLength(7)
    for (const line of LINES.slice(1)) {
      expect(BYTE_TOOLS.sha256(line.slice(65))).toBe(line.slice(0, 64))
    }
  })
})

describe('a damaged file', () => {
  it.each([
    ['a log', [HEADER, SETTINGS, KIT, TYPED, FIRST.replace('log', 'lag'), SECOND, END], ['Line 5 is damaged']],
    ['the label', [HEADER, SETTINGS.replace('Thursday', 'Friday'), KIT, TYPED, FIRST, SECOND, END], ['Line 2 is damaged and was left out: the settings', 'The settings are missing']],
    ['a part gone', [HEADER, SETTINGS, KIT, FIRST, SECOND, END], ['A part of the file is missing']],
    ['a part gone and another damaged', [HEADER, SETTINGS, TYPED, `${FIRST}x`, SECOND, END], ['Line 4 is', 'A part of the file is missing']],
    ['logs in another order', [HEADER, SETTINGS, KIT, TYPED, SECOND, FIRST, END], ['Parts of the file were moved']],
    ['a log twice', [HEADER, SETTINGS, KIT, TYPED, FIRST, FIRST, SECOND, END], ['Parts of the file were moved']],
    ['one log for the other', [HEADER, SETTINGS, KIT, TYPED, FIRST, FIRST, END], ['Parts of the file were moved']],
    ['a checksum taken off and the reading changed', [HEADER, SETTINGS, KIT, TYPED.slice(65).replace('104', '204'), FIRST, SECOND, END], ['Parts of the file were moved']],
    ['cut after a line', [HEADER, SETTINGS, KIT, TYPED, FIRST], ['The file ends too early']],
    ['cut in a line', [HEADER, SETTINGS, KIT, TYPED, FIRST.slice(0, 90)], ['Line 5 is damaged', 'The file ends too early']],
    ['more after the end', [...LINES, FIRST], ['Line 8: what comes after the end']],
  ])('is told: %s', (_, lines, told) => {
    const damage = damageOf(lines)
    expect(damage.map((message, i) => message.slice(0, told[i]?.length))).toEqual(told)
  }) // prettier-ignore

  it('gives what is sound', () => {
    const result = read([HEADER, SETTINGS, KIT, TYPED.replace('104', '204'), FIRST, SECOND, END])
    expect(result).toMatchObject({ kind: 'read', visit: { ...VISIT, typed: [] } })
    expect(
      damageOf([HEADER, SETTINGS, KIT, TYPED, FIRST.replace('"a.csv"', '"c.csv"'), SECOND, END]),
    ).toEqual(['Line 5 is damaged and was left out: a log. Add the log’s own file again.'])
  })

  it.each([
    ['nothing', '', VISIT_FILE.notAVisit],
    ['another program’s JSON', '{"format":"something","version":1}\n{}', VISIT_FILE.notAVisit],
    ['JSON that is no object', '[1]', VISIT_FILE.notAVisit],
    ['the header alone', PLAIN_HEADER, VISIT_FILE.nothingSound],
    ['a newer version', TEXT.replace('"version":1', '"version":2'), VISIT_FILE.newer],
    ['a newer version with more in its header', TEXT.replace('"version":1', '"version":2,"packed":"zstd"'), VISIT_FILE.newer],
    ['version 0', TEXT.replace('"version":1', '"version":0'), VISIT_FILE.notAVisit],
  ])('is refused: %s', (_, text, message) => {
    expect(readVisit(ENGLISH, text, BYTE_TOOLS)).toEqual({ kind: 'refused', message })
  }) // prettier-ignore
})

describe('a part written by hand', () => {
  const settings = JSON.parse(SETTINGS.slice(65)) as { settings: object }
  const typed = { at: '2026-03-02T07:10', value: 104, unit: 'mg/dL' }
  const end = { part: 'end', parts: 2 }

  it('needs no checksum', () => {
    const lines = [HEADER, unchecked(settings), unchecked({ part: 'typed', typed }), unchecked(end)]
    expect(read(lines)).toMatchObject({ kind: 'read', visit: { typed: [typed] }, damage: [] })
  })

  it('with a key that is not known is taken without it, and the key is named', () => {
    const more = { part: 'typed', typed: { ...typed, mood: 'good' }, more: 1 }
    const result = read([HEADER, unchecked(settings), unchecked(more), unchecked(end)])
    expect(result).toMatchObject({ kind: 'read', visit: { typed: [typed] } })
    expect(result).toHaveProperty('damage', [
      'Line 3: this version does not know ‘mood’, ‘more’; saving will not keep it.',
    ])
  })

  it('with thousands of such keys, deep or with commands for a terminal, is taken and told in a short line', () => {
    const deep = `${'['.repeat(100_000)}${']'.repeat(100_000)}`
    const keys = Array.from({ length: 3_000 }, (_, i) => `"k${i}":${i === 0 ? deep : '1'}`).join(',')
    const odd = unchecked({ part: 'typed', typed: { ...typed, '\u001b[2J\u202e': 1 } })
    const damage = damageOf([HEADER, unchecked(settings).replace(/}$/, `,${keys}}`), odd, unchecked(end)])
    expect(damage).toEqual([
      'Line 2: this version does not know ‘k0’, ‘k1’, ‘k2’, ‘k3’, ‘k4’ and 2995 more; saving will not keep it.',
      'Line 3: this version does not know ‘\ufffd[2J\ufffd’; saving will not keep it.',
    ])
  })

  it('of a name that is none, were it one that every object has, is told as a part', () => {
    expect(
      damageOf([HEADER, unchecked(settings), unchecked({ part: 'constructor' }), unchecked(end)]),
    ).toContain('Line 3 is damaged and was left out: a part of the visit.')
  })

  it('that stands once and is there twice is told', () => {
    const two = [HEADER, unchecked(settings), unchecked(settings), unchecked(end)]
    expect(damageOf(two)[0]).toContain('Parts of the file were moved, added or changed')
  })

  it('with a target range that ends before it begins leaves the usual settings', () => {
    const targets = { low: 180, high: 70 }
    const wrong = unchecked({ part: 'settings', settings: { ...settings.settings, targets } })
    expect(damageOf([HEADER, wrong, TYPED, unchecked(end)])[0]).toContain('Line 2 is damaged')
  })

  it.each([
    { ...typed, at: '2026-02-30T07:10' },
    { ...typed, at: '2026-02-20T24:10' },
    { ...typed, at: '2026-02-20T07:60' },
    { ...typed, value: 0 },
    { ...typed, value: 1001 },
    { ...typed, unit: 'mg' },
    { at: typed.at, unit: typed.unit },
  ])('is left out where it says what cannot be: %#', (wrong) => {
    const damage = damageOf([
      HEADER,
      unchecked(settings),
      unchecked({ part: 'typed', typed: wrong }),
      unchecked(end),
    ])
    expect(damage[0]).toBe('Line 3 is damaged and was left out: a reading typed by hand.')
  })

  it('with a zone that no computer knows leaves the usual settings', () => {
    const wrong = unchecked({ part: 'settings', settings: { ...settings.settings, zone: 'Moon/Base' } })
    expect(damageOf([HEADER, wrong, TYPED, unchecked(end)])).toEqual([
      'Line 2 is damaged and was left out: the settings.',
      'The settings are missing; the usual ones are used.',
    ])
  })

  it('with the bytes of another log is left out', () => {
    const other = { part: 'log', log: { ...visitLog('x', 'x'), bytes: undefined, base64: 'eQ==' } }
    expect(damageOf([HEADER, SETTINGS, unchecked(other), unchecked(end)])[0]).toContain(
      'Line 3 is damaged and was left out: a log',
    )
  })
})
