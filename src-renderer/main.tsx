import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './App'
import { chooseBridge, NOT_LET_IN } from './bridge'
import { keepAwake } from './keepAwake'
import { watchPresses } from './pointerPress'
import './styles.css'

const bridge = chooseBridge()
watchPresses()
if (bridge && !window.visitReport) keepAwake(bridge)
const root = document.getElementById('root')
if (!root) throw new Error('index.html has no #root')
createRoot(root).render(
  <StrictMode>{bridge ? <App bridge={bridge} /> : <p className="fault">{NOT_LET_IN}</p>}</StrictMode>,
)
