import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './App'
import { ENGLISH_OF_WINDOW } from '../src-core/wording/english/ofWindow'
import type { WindowWords } from '../src-core/wording/words'
import { chooseBridge } from './bridge'
import { keepAwake } from './keepAwake'
import { watchPresses } from './pointerPress'
import { WordsContext } from './words'
import './styles.css'

/** The language of the window, chosen here. */
const WORDS: WindowWords = ENGLISH_OF_WINDOW
const bridge = chooseBridge(WORDS)
watchPresses()
if (bridge && !window.visitReport) keepAwake(bridge)
const root = document.getElementById('root')
if (!root) throw new Error('index.html has no #root')
document.documentElement.lang = WORDS.windowFrame.LANGUAGE
createRoot(root).render(
  <StrictMode>
    <WordsContext value={WORDS}>
      {bridge ? <App bridge={bridge} /> : <p className="fault">{WORDS.windowWork.NOT_LET_IN}</p>}
    </WordsContext>
  </StrictMode>,
)
