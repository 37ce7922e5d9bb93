import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './App'
import { chooseBridge } from './bridge'
import { keepAwake } from './keepAwake'
import './styles.css'

const bridge = chooseBridge()
if (!window.visitReport) keepAwake(bridge)
const root = document.getElementById('root')
if (!root) throw new Error('index.html has no #root')
createRoot(root).render(
  <StrictMode>
    <App bridge={bridge} />
  </StrictMode>,
)
