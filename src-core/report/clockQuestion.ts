import { clocksAsked } from '../told/clocks'
import type { ReportContext } from './context'
import type { Block } from './document'
import { paragraph, TYPE } from './parts'

/** For the pen: what each meter's clock shows, where the kit tells of none. */
export function clockQuestion({ analysis, figures, meterNames, words }: ReportContext): readonly Block[] {
  return clocksAsked(analysis, figures).map((meter) =>
    paragraph(words.kit.clockQuestion(meter === null ? null : meterNames[meter]), {
      fontSize: TYPE.person,
      margin: [0, 5, 0, 3],
    }),
  )
}
