import { PRINT_PALETTE } from '../charts/palette'
import { lowsLeftToAsk } from '../told/findings'
import type { Phrase } from '../wording/phrases'
import type { ReportContext } from './context'
import type { Block, Paragraph, Stack } from './document'
import { ruleAcross, runs, TYPE } from './parts'

// Parts of which the first page is made.

/** The first page is read on a desk at arm's length: nothing on it is smaller, points. */
export const FIRST_TEXT = { fontSize: TYPE.first } as const
const GREY = { fontSize: TYPE.first, color: PRINT_PALETTE.grey } as const
const RULE = [0, 3, 0, 2] as const

/** A section's name and what it says first, on one line. */
export function headed(context: ReportContext, title: string, first: readonly Phrase[]): readonly Block[] {
  return [
    ruleAcross(context.width, RULE),
    {
      columns: [
        {
          text: title,
          bold: true,
          fontSize: TYPE.heading,
          outline: true,
          level: 2,
          width: 'auto',
          noWrap: true,
        },
        { text: runs(first), ...FIRST_TEXT, width: '*', margin: [0, 0.8, 0, 0] },
      ],
      columnGap: 10,
      margin: [0, 0, 0, 2],
    },
  ]
}

/** Characters of a note beside an episode: of few episodes the word that matters is not cut off. */
export function noteLengthBeside(episodes: number): number {
  return episodes <= FEW_EPISODES ? NOTE_LENGTH.few : NOTE_LENGTH.many
}

const FEW_EPISODES = 4
/** Characters of what somebody wrote, on the first page. */
export const NOTE_LENGTH = { few: 40, many: 20 } as const

/** The first half at the left, in order of time from top to bottom. */
export function inTwoColumns(items: readonly Paragraph[]): readonly Block[] {
  if (items.length === 0) return []
  const half = Math.ceil(items.length / 2)
  return [
    {
      columns: [{ stack: items.slice(0, half) }, { stack: items.slice(half) }],
      columnGap: 12,
      margin: [0, 0, 0, 2],
    },
  ]
}

/** A large figure over what it rests on, in small. */
export function large(label: string, value: string, unit: string, small: string): Stack {
  const WIDEST = 9
  const fontSize = value.length > WIDEST ? TYPE.heading : TYPE.figure
  return {
    stack: [
      { text: label, ...FIRST_TEXT, noWrap: true },
      {
        text: [
          { text: value, fontSize, bold: true },
          ...(unit === '' ? [] : [{ text: ` ${unit}`, ...FIRST_TEXT }]),
        ],
        noWrap: true,
        margin: [0, -2, 0, -2],
      },
      { text: small, ...GREY },
    ],
  }
}

/** What to ask of lows, where no finding does: under what stands out where nothing does, else beside the lows. */
export function lowsQuestion({ figures, words }: ReportContext, named = false): readonly string[] {
  const { readingsBelow70 } = figures.lows
  return lowsLeftToAsk(figures)
    ? [`${words.findings.ASK} ${words.firstPage.lowsQuestion(readingsBelow70, named)}`]
    : []
}
