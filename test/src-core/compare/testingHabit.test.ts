import { describe, expect, it } from 'vitest'
import { aroundMeals, printedVerdicts, twoHabits } from '../../helpers/testingHabits'

// People whose glucose never changes its law (`fixedProcess`): what is called a change is false. Many more of them are
// tried in test/bench/falseVerdicts.bench.ts.

const SEEDS = Array.from({ length: 6 }, (_, i) => i + 1)
const BLOCK = /^\d\d–\d\d$/

function verdicts(
  ...[earlier, later, shift]: [...Parameters<typeof twoHabits>] extends [number, ...infer R] ? R : never
) {
  return SEEDS.map((seed) => printedVerdicts(twoHabits(seed, earlier, later, shift)))
}

describe('who tests before meals in one month and after them in the next', () => {
  it.each([
    ['with tags', true],
    ['without', false],
  ])('is never told that the figures changed, %s', (_, tagged) => {
    const said = verdicts(aroundMeals(1, 0, tagged), aroundMeals(0, 1, tagged), 0)
    expect(said.flat().filter((row) => !BLOCK.test(row))).toEqual([])
    // Bedtime alone was tested alike.
    expect(said.flat().filter((row) => row !== '21–24')).toEqual([])
  })

  it('but the change is measured: the mean and its interval stand in the table', () => {
    const analysis = twoHabits(1, aroundMeals(1, 0), aroundMeals(0, 1))
    const mean = analysis.comparison?.measures.find(({ measure }) => measure === 'meanMgDl')
    expect(mean).toMatchObject({ verdict: 'higher' })
    expect(analysis.comparison?.habitChanges).toEqual(
      expect.arrayContaining(['meals', 'hours', 'within-blocks']),
    )
    expect(analysis.comparison?.sameTimesOfDay).toMatchObject({
      verdict: 'unclear',
      verdictReason: 'mix-moved',
    })
  })
})

describe('who tests after meals more often than before', () => {
  it('is told nothing either where the log has no tags', () => {
    const said = verdicts(aroundMeals(0.8, 0.2, false), aroundMeals(0.2, 0.8, false), 0)
    expect(said.flat().filter((row) => !BLOCK.test(row))).toEqual([])
  })

  it('is told of a real change at the same meals', () => {
    const said = verdicts(aroundMeals(0.8, 0.3), aroundMeals(0.3, 0.8), -40)
    for (const rows of said) expect(rows).toContain('Mean before and after the same meals')
    expect(said.flat()).not.toContain('Mean')
  })
})

describe('who tests as before', () => {
  it('is told of a real change in every row that shows it', () => {
    const said = verdicts(aroundMeals(0.9, 0.5), aroundMeals(0.9, 0.5), -40)
    for (const rows of said) {
      expect(rows).toEqual(
        expect.arrayContaining([
          'Mean',
          'Mean at the same times of day',
          'Mean before and after the same meals',
          'Median',
        ]),
      )
    }
  })
})
