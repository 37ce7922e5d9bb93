import { beforeAfterTold, type NewThing } from '../told/beforeAfter'
import { yearsOfKit } from '../told/kit'
import { dayOf } from '../units/wallClock'
import type { NewInWords } from '../wording/english/beforeAfter'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph } from './parts'
import { oneLine } from './printable'

const NAME_LENGTH = 60

/** How often repeats disagree before and since what was new; nothing where one side has no sets, or all agree. */
export function beforeAfter(context: ReportContext): readonly Block[] {
  const { analysis, unit, words } = context
  const told = beforeAfterTold(analysis)
  if (told.length === 0) return []
  const { readings, kit } = analysis
  const years = yearsOfKit(kit, dayOf(readings.at[readings.n - 1]), context.years)
  return keptTogether(
    [
      heading(words.beforeAfter.TITLE),
      ...told.flatMap(({ since, news, sets, pairs }) => {
        const day = words.dates.dayText(since, years)
        const named = news.map((thing) => inWords(context, thing))
        return [
          ...(sets === null ? [] : [paragraph(words.beforeAfter.setsText(day, sets, named))]),
          ...(pairs === null ? [] : [paragraph(words.beforeAfter.pairsText(day, pairs, named, unit))]),
        ]
      }),
      greyParagraph(words.beforeAfter.NO_CAUSE),
    ],
    context.width,
  )
}

function inWords({ meterNames }: ReportContext, thing: NewThing): NewInWords {
  const short = (text: string | null) => (text === null ? null : oneLine(text, NAME_LENGTH))
  switch (thing.code) {
    case 'taught':
      return { ...thing, about: short(thing.about) }
    case 'strips':
      return { ...thing, vial: short(thing.vial), lot: short(thing.lot) }
    case 'meter':
      return { code: 'meter', name: meterNames[thing.meter] }
  }
}
