import * as fileScreen from './fileScreen'
import * as lineBreaks from './lineBreaks'
import * as logsScreen from './logsScreen'
import * as pagesScreen from './pagesScreen'
import * as pictureScreen from './pictureScreen'
import * as readingsScreen from './readingsScreen'
import * as visitForms from './visitForms'
import * as windowFrame from './windowFrame'
import * as windowWork from './windowWork'

/**
 * The part of the catalogue that the page of the window holds itself; all else comes to it in sentences. No module of it
 * imports a figure, so that the page stays small.
 */
export const ENGLISH_OF_WINDOW = {
  fileScreen,
  lineBreaks,
  logsScreen,
  pagesScreen,
  pictureScreen,
  readingsScreen,
  visitForms,
  windowFrame,
  windowWork,
}
