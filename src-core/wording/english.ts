<<<<<<< HEAD
=======
import * as advice from './english/advice'
import * as attachments from './english/attachments'
import * as besideNumbers from './english/besideNumbers'
import * as browserHost from './english/browserHost'
import * as commandLine from './english/commandLine'
import * as commandOptions from './english/commandOptions'
import * as comparison from './english/comparison'
import * as dates from './english/dates'
import * as day from './english/day'
import * as decided from './english/decided'
import * as desktop from './english/desktop'
import * as diary from './english/diary'
import * as doubt from './english/doubt'
import * as figures from './english/figures'
import * as findings from './english/findings'
import * as firstPage from './english/firstPage'
import * as forms from './english/forms'
import * as handout from './english/handout'
import * as head from './english/head'
import * as highs from './english/highs'
import * as importMessages from './english/importMessages'
import * as kit from './english/kit'
import * as kitMessages from './english/kitMessages'
import * as latestReading from './english/latestReading'
import * as logs from './english/logs'
import * as lows from './english/lows'
import * as meals from './english/meals'
import * as meters from './english/meters'
import * as method from './english/method'
import * as missingFigures from './english/missingFigures'
import * as numbers from './english/numbers'
>>>>>>> d62f038 (The first page in about 450 words of 9.5 points and more: lows as episodes, highs, numbers, the day, meals, what stands out, trust)
import { ENGLISH_OF_WINDOW } from './english/ofWindow'
import * as sentences from './english/sentences'

/**
 * Every sentence in English, by what it is about. Chosen once by whoever prints or shows (command line, window,
 * browser host) and given from there as an argument.
 */
<<<<<<< HEAD
export const ENGLISH = { ...ENGLISH_OF_WINDOW, ...sentences }
=======
export const ENGLISH = {
  ...ENGLISH_OF_WINDOW,
  advice,
  attachments,
  besideNumbers,
  browserHost,
  commandLine,
  commandOptions,
  comparison,
  dates,
  day,
  decided,
  desktop,
  diary,
  doubt,
  figures,
  findings,
  firstPage,
  forms,
  handout,
  head,
  highs,
  importMessages,
  kit,
  kitMessages,
  latestReading,
  logs,
  lows,
  meals,
  meters,
  method,
  missingFigures,
  numbers,
  outputs,
  pages,
  pictures,
  reasons,
  sensor,
  stretches,
  tables,
  targets,
  terminalSummary,
  traces,
  trials,
  trust,
  typed,
  visitFile,
  visitWindow,
  waysToRead,
  week,
  window,
}
>>>>>>> d62f038 (The first page in about 450 words of 9.5 points and more: lows as episodes, highs, numbers, the day, meals, what stands out, trust)
