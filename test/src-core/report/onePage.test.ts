import { describe, expect, it } from 'vitest'
import { documentOf, EDGE_NAMES, edgeLog, pageTexts, pdfOf } from '../../helpers/pages'

// The first page alone: one sheet whatever the log holds, lows and numbers on it, and nothing that points to another.

describe('the first page alone', () => {
  it.each(EDGE_NAMES)('is one sheet of either paper, with its lows and its numbers: %s', async (name) => {
    for (const paper of ['A4', 'Letter'] as const) {
      const pages = await pageTexts(await pdfOf(edgeLog(name), { paper, onePage: true }))
      expect(pages).toHaveLength(1)
      expect(pages[0]).toContain('Lows first')
      expect(pages[0]).toContain('The numbers')
      expect(pages[0]).toContain('This is the first page alone.')
      expect(pages[0]).not.toMatch(/: page \d/)
    }
  })

  it.each(EDGE_NAMES)('holds what stands out, or says that the whole report does: %s', (name) => {
    const page = JSON.stringify(documentOf(edgeLog(name), { onePage: true }).content)
    expect(page).toMatch(/"What stands out"|The whole report also has what stands out/)
    expect(page).toMatch(/"How far the readings can be trusted"|how far to trust the readings/)
  })
})
