import { expect, it } from 'vitest'
import { ENGLISH } from '../../src-core/wording/english'
import { lengthFault } from '../../src-renderer/lengthFault'

it('what is too long is told with both lengths, and nothing else is', () => {
  expect(lengthFault(ENGLISH, 'x'.repeat(2_345), 2_000)).toBe(
    'Too long: 2,345 of 2,000 characters. Shorten it.',
  )
  expect(lengthFault(ENGLISH, 'x'.repeat(1_234_567), 200)).toContain('1,234,567 of 200 ')
  expect(lengthFault(ENGLISH, 'x'.repeat(2_000), 2_000)).toBe('')
  expect(lengthFault(ENGLISH, '', 2_000)).toBe('')
})
