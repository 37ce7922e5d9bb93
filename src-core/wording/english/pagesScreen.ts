// The screen of the pages: looking at them, printing and saving them, and what they need to be told.

export const PAGES = 'Pages'
export const PAGE_SHOWN = 'Page shown'
export const PREVIOUS = 'Previous'
export const NEXT = 'Next'
export const SIZE = 'Size'
export const WHOLE_WIDTH = 'Width of the window'
export const sizeText = (percent: number) => `${percent} %`
export const PRINT = 'Print'
export const MAKE_AGAIN = 'Make the pages again'

export const pageText = (page: number, of: number) => `Page ${page} of ${of}`
export const pageAsPrinted = (page: number, of: number) => `${pageText(page, of)}, as printed`
export const pageWithText = (page: number, of: number) => `${pageText(page, of)}; its text is below`
export const textOfPage = (page: number) => `Text of page ${page}`

export const PAPER = 'Paper'
export const paperChosen = (paper: string) => `Paper: ${paper}.`
export const UNIT = 'Unit'
export const unitChosen = (unit: string) => `Unit: ${unit}.`
export const DIARY = 'Diary'
export const diaryChosen = (days: number | 'all') => `Diary: ${diaryName(days)}.`
export function diaryName(days: number | 'all'): string {
  if (days === 'all') return 'all days'
  return days === 0 ? 'left out' : `latest ${days} days`
}
export const HEAD_OF_PAGES = 'At the head of each page'
export const NO_LABEL = 'empty: a line for name and date of birth'
export const LABEL_CHANGED = 'Label changed.'

export const PAGES_FAILED = 'The pages could not be made.'
export const NO_PAGES = 'There are no pages yet: add a log, or answer what is asked about one.'
export const PRINTED = 'On these pages'
export const FIRST_PAGE_ALONE = 'First page alone'
export const WHOLE_METHOD = 'The method in full'
export const WITHOUT_NOTES = 'Without the log’s notes'
export const attachText = (withVisit: boolean) =>
  withVisit ? 'Attach the readings and the visit' : 'Attach the readings'
export const madeText = (fileName: string, attached: boolean) =>
  attached
    ? `Made ${fileName}. It contains every reading with its note: whoever gets the file gets them too.`
    : `Made ${fileName}.`
export const printText = (paper: string) => `Print at actual size, on ${paper}.`
export const openedToPrintText = (paper: string) =>
  `The pages are open in your PDF viewer: print them there at actual size, on ${paper}, before this window is closed.`
export const NOT_OPENED_TO_PRINT =
  'No PDF viewer could be opened. Choose Save PDF, then open that file in another program and print it.'
export const savedToPrintText = (fileName: string) =>
  `This browser cannot print the pages by itself. It was given ${fileName} to save: open that file and print it.`
