import { useEffect } from 'react'
import type { Bridge } from '../src-core/bridge/contract'
import type { FileRequest } from '../src-core/bridge/fileRequest'
import { saveFile } from './savePdf'
import type { VisitHold } from './useVisit'

export type FileAsk = (request: FileRequest) => void

/** The way to the file of the visit: what is done is told, and what the browser has to save is handed to it. */
export function useFile(bridge: Bridge, visit: VisitHold, leaveAll: () => void): FileAsk {
  const ask: FileAsk = (request) => {
    const work = async () => {
      const outcome = await bridge.file(request)
      const { state, said, download } = outcome
      visit.show(state)
      visit.tell(outcome)
      if (download) saveFile(download.fileName, download.bytes, 'application/octet-stream')
      return outcome.problems.length > 0 ? null : said
    }
    // What stands in a field is part of what is saved, and of what is asked about before another visit is opened.
    leaveAll()
    void visit.run(BUSY[request.does] ?? 'opening', work, { ofAnyVisit: true })
  }
  useFileKeys(ask, visit)
  useWarning(visit.state?.file)
  return ask
}

const BUSY: Readonly<Partial<Record<FileRequest['does'], 'saving'>>> = {
  save: 'saving',
  'save-as': 'saving',
  'save-first': 'saving',
}

/** Save and open by the usual keys, also from within a field: what stands there is taken in first. */
function useFileKeys(ask: FileAsk, { state }: VisitHold) {
  const file = state?.file
  useEffect(() => {
    function pressed(event: KeyboardEvent) {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || !file || file.asked) return
      const key = event.key.toLowerCase()
      if (key === 's') {
        ask({ does: event.shiftKey ? 'save-as' : 'save' })
      } else if (key === 'o' && file.hasDialogs) ask({ does: 'choose' })
      else return
      event.preventDefault()
    }
    window.addEventListener('keydown', pressed)
    return () => window.removeEventListener('keydown', pressed)
  })
}

/** The browser asks before it closes a page whose visit is not saved; the desktop program asks by itself. */
function useWarning(file: { readonly edited: boolean; readonly hasDialogs: boolean } | undefined) {
  const warns = file !== undefined && file.edited && !file.hasDialogs
  useEffect(() => {
    if (!warns) return
    const warn = (event: BeforeUnloadEvent) => event.preventDefault()
    window.addEventListener('beforeunload', warn)
    return () => window.removeEventListener('beforeunload', warn)
  }, [warns])
}
