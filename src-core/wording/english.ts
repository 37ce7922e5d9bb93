import { ENGLISH_OF_WINDOW } from './english/ofWindow'
import * as sentences from './english/sentences'

/**
 * Every sentence in English, by what it is about. Chosen once by whoever prints or shows (command line, window,
 * browser host) and given from there as an argument.
 */
export const ENGLISH = { ...ENGLISH_OF_WINDOW, ...sentences }
