import { describe, expect, it } from 'vitest'
import { readKit } from '../../../src-core/kit/readKit'
import { kitProblemText } from '../../../src-core/wording/english/kitMessages'

const FULL = {
  strips: [
    {
      vial: 'second',
      lot: 'L7',
      meter: 'meter A',
      expires: '2026-05-31',
      opened: '2026-03-01',
      finished: '2026-04-20',
      daysOnceOpen: 90,
      workingCelsius: [10, 40],
    },
  ],
  controls: [{ date: '2026-03-02', vial: 'second', result: 118, range: [96, 144], unit: 'mg/dL' }],
  medicines: [{ name: 'vitamin C', milligramsADay: 1000, from: '2026-03-01', to: '2026-04-01' }],
  clocks: [{ meter: 'meter B', shown: '2026-05-30T08:00', true: '2026-05-30T07:48' }],
  laboratoryA1c: [
    { date: '2026-05-20', percent: 7.4 },
    { date: '2026-02-20', mmolMol: 60 },
  ],
  teachings: [{ date: '2026-04-15', about: 'washing and drying' }],
  changes: ['new meter in April'],
  canCauseLows: true,
  questions: ['Why is it high on waking?'],
}

/** Lines and messages of what is wrong. */
function problemsOf(text: string): string[] {
  const read = readKit(text)
  if ('kit' in read) throw new Error('read without a complaint')
  return read.problems.map((problem) => `${problem.line}: ${kitProblemText(problem)}`)
}

describe('a kit file', () => {
  it('is read with every part, with none, and with a byte-order mark', () => {
    expect(readKit(JSON.stringify(FULL))).toEqual({ kit: FULL })
    expect(readKit('{}')).toEqual({ kit: {} })
    expect(readKit('\uFEFF{"$schema": "kit.schema.json"}')).toEqual({ kit: { $schema: 'kit.schema.json' } })
  })

  it('names unknown keys with their line and the keys that would be right', () => {
    expect(
      problemsOf('{\n "laboratoryA1c": [\n  {"date": "2026-05-20",\n   "percentage": 7}\n ],\n "lab": 1\n}'),
    ).toEqual([
      '3: laboratoryA1c, entry 1 needs either percent or mmolMol, not both.',
      '4: laboratoryA1c, entry 1: "percentage" is not known here. Known names: date, percent, mmolMol.',
      '6: "lab" is not known here. Known names: strips, controls, medicines, clocks, laboratoryA1c, teachings, changes, canCauseLows, diabetes, treatment, agreedTargets, questions.',
    ])
  })

  it.each([
    [
      '{"laboratoryA1c": [{"date": "2026-02-30", "percent": 7}]}',
      'laboratoryA1c, entry 1, date is not a date that exists.',
    ],
    [
      '{"teachings": [{"date": "30.2.2026"}]}',
      'teachings, entry 1, date has to be a date such as "2026-03-02".',
    ],
    [
      '{"clocks": [{"shown": "2026-05-30T24:00", "true": "2026-05-30T08:00"}]}',
      'clocks, entry 1, shown has to be a date and time such as "2026-03-02T08:15".',
    ],
    [
      '{"controls": [{"date": "2026-03-02", "result": 5, "range": [8, 5], "unit": "mmol/L"}]}',
      'controls, entry 1, range is the wrong way round: the first has to be below, or before, the second.',
    ],
    [
      '{"controls": [{"date": "2026-03-02", "result": -5, "range": [5, 8], "unit": "mmol/L"}]}',
      'controls, entry 1, result has to be above 0.',
    ],
    [
      '{"controls": [{"date": "2026-03-02", "result": 5, "range": [5], "unit": "mmol/L"}]}',
      'controls, entry 1, range has too few entries: at least 2.',
    ],
    [
      '{"controls": [{"date": "2026-03-02", "result": 5, "range": [5, 8]}]}',
      'controls, entry 1, unit is missing.',
    ],
    [
      '{"controls": [{"date": "2026-03-02", "result": 5, "range": [5, 8], "unit": "mg"}]}',
      'controls, entry 1, unit has to be "mg/dL" or "mmol/L".',
    ],
    [
      '{"controls": [{"date": "2026-03-02", "result": 110, "range": [5, 8], "unit": "mmol/L"}]}',
      'controls, entry 1, unit does not fit result and range: these numbers look like the other unit.',
    ],
    [
      '{"controls": [{"date": "2026-03-02", "result": 6.1, "range": [5, 8], "unit": "mg/dL"}]}',
      'controls, entry 1, unit does not fit result and range: these numbers look like the other unit.',
    ],
    [
      '{"strips": [{"opened": "2026-04-02", "finished": "2026-03-02"}]}',
      'strips, entry 1, finished is the wrong way round: the first has to be below, or before, the second.',
    ],
    [
      '{"strips": [{"workingCelsius": [40, 10]}]}',
      'strips, entry 1, workingCelsius is the wrong way round: the first has to be below, or before, the second.',
    ],
    ['{"medicines": [{"milligramsADay": 5}]}', 'medicines, entry 1, name is missing.'],
    ['{"medicines": {"name": "x"}}', 'medicines has to be a list in square brackets.'],
    ['{"questions": [""]}', 'questions, entry 1 is empty.'],
    ['{"questions": [7]}', 'questions, entry 1 has to be a text in quotation marks.'],
    ['{"canCauseLows": "yes"}', 'canCauseLows has to be true or false.'],
    [
      '{"laboratoryA1c": [{"date": "2026-05-20", "percent": 7, "mmolMol": 53}]}',
      'laboratoryA1c, entry 1 needs either percent or mmolMol, not both.',
    ],
    [
      '{"laboratoryA1c": [{"date": "2026-05-20", "percent": 74}]}',
      'laboratoryA1c, entry 1, percent has to be at most 20.',
    ],
    ['[]', 'The file has to be an object in braces.'],
    ['{"canCauseLows": true, "canCauseLows": false}', '"canCauseLows" appears twice in one place; keep one.'],
    ['', 'this is not JSON from here on: look for a missing comma, bracket or quotation mark.'],
    [
      '{"questions": ["a" "b"]}',
      'this is not JSON from here on: look for a missing comma, bracket or quotation mark.',
    ],
    ['['.repeat(100_000), 'the brackets are nested too deep for a kit file.'],
    [
      'Date,Time,Glucose\n2026-01-01,08:00,120',
      'this is not JSON from here on: look for a missing comma, bracket or quotation mark.',
    ],
  ])('says what is wrong: fault %#', (text, message) => {
    expect(problemsOf(text)[0].replace(/^\d+: /, '')).toBe(message)
  })

  it('names the line of a fault in the JSON itself', () => {
    expect(problemsOf('{\n  "questions": [\n    "a"\n    "b"\n  ]\n}')[0]).toMatch(/^4: /)
  })

  it('tells at most ten problems at once, and shortens a key of any length', () => {
    const many = JSON.stringify({ questions: Array.from({ length: 50 }, () => 7) }, null, 1)
    expect(problemsOf(many)).toHaveLength(10)
    expect(problemsOf(JSON.stringify({ ['x'.repeat(5_000)]: 1 }))[0].length).toBeLessThan(300)
  })

  it('repeats no value that stands in the file', () => {
    expect(problemsOf('{"laboratoryA1c": [{"date": "secret", "percent": "4321"}]}').join()).not.toMatch(
      /secret|4321/,
    )
  })
})
