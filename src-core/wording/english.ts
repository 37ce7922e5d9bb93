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
import { ENGLISH_OF_WINDOW } from './english/ofWindow'
import * as outputs from './english/outputs'
import * as pages from './english/pages'
import * as pictures from './english/pictures'
import * as reasons from './english/reasons'
import * as sensor from './english/sensor'
import * as stretches from './english/stretches'
import * as tables from './english/tables'
import * as targets from './english/targets'
import * as terminalSummary from './english/terminalSummary'
import * as traces from './english/traces'
import * as trials from './english/trials'
import * as trust from './english/trust'
import * as typed from './english/typed'
import * as visitFile from './english/visitFile'
import * as visitWindow from './english/visitWindow'
import * as waysToRead from './english/waysToRead'
import * as week from './english/week'
import * as window from './english/window'

/**
 * Every sentence in English, by what it is about. Chosen once by whoever prints or shows (command line, window,
 * browser host) and given from there as an argument.
 */
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
