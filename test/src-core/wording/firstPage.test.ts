import { expect, it } from 'vitest'
import { episodeText } from '../../../src-core/wording/english/firstPage'

it('says of a low after which no reading of 70 or more came within four hours that its end was not seen, not that no test followed', () => {
  expect(episodeText(null, '20 May, 22:51', false)).toBe('20 May, 22:51; end not seen in 4 h')
  expect(episodeText(45, '14 April, 16:21', true)).toBe('45 min, 14 April, 16:21')
  expect(episodeText(null, '14 April', null)).toBe('14 April')
})
