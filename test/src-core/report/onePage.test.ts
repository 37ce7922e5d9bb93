import { describe, expect, it } from 'vitest'
import { EDGE_NAMES, edgeLog, pageTexts, pdfOf } from '../../helpers/pages'

// The first page alone: one sheet whatever the log holds, all its sections on it, and nothing that points to another.

const SECTIONS = ['Lows first', 'Highs and numbers', 'The day', 'What stands out', 'Can readings be trusted?']

describe('the first page alone', () => {
  it.each(EDGE_NAMES)('is one sheet of either paper, with all its sections: %s', async (name) => {
    for (const paper of ['A4', 'Letter'] as const) {
      const pages = await pageTexts(await pdfOf(edgeLog(name), { paper, onePage: true }))
      expect(pages).toHaveLength(1)
      expect(pages[0]).toContain('Do not change doses from these pages.')
      for (const title of SECTIONS) expect(pages[0]).toContain(title)
      expect(pages[0]).not.toMatch(/: page \d/)
    }
  })
})
