import { type DragEvent, useEffect, useMemo, useRef, useState } from 'react'
import type { WindowBridge } from './bridge'
import { useWords } from './words'
import { type Drafts, DraftsContext } from './drafts'
import { createFieldsInHand, FieldsContext } from './fieldsInHand'
import { AskedDialog } from './parts/AskedDialog'
import { Bar } from './parts/Bar'
import { Foot } from './parts/Foot'
import { Notices } from './parts/Notices'
import { Problems } from './parts/Problems'
import { Progress } from './parts/Progress'
import { LogsScreen } from './screens/LogsScreen'
import { PagesScreen } from './screens/PagesScreen'
import { PictureScreen } from './screens/PictureScreen'
import { type ListInHand, listOf, ReadingsScreen } from './screens/ReadingsScreen'
import { StartScreen } from './screens/StartScreen'
import { type Step, stepShown } from './steps'
import { VisitScreen } from './screens/VisitScreen'
import { useFile } from './useFile'
import { useKept } from './useKept'
import { usePagesOut } from './usePagesOut'
import { useVisit } from './useVisit'

/** The window: four steps from the logs to the pages, and what is always in reach. */
export function App({ bridge }: { readonly bridge: WindowBridge }) {
  const { windowFrame, windowWork, visitForms } = useWords()
  const visit = useVisit(bridge)
  const { state, busy } = visit
  const [chosen, setChosen] = useState<Step>('picture')
  /** The part of the visit in hand. */
  const [part, setPart] = useState('file')
  /** The list of readings as it was left, and of which visit it is. */
  const [left, setLeft] = useState<{ readonly list: ListInHand; readonly of: number | undefined } | null>(
    null,
  )
  const picker = useRef<HTMLInputElement>(null)
  const report = state?.report ?? null
  const opened = report?.kind === 'opened' ? report : null
  const step = stepShown(chosen, report)
  const isAsking = (state?.file.asked ?? null) !== null
  useUndoKeys(visit.undo, visit.redo, isAsking)
  const file = state?.file ?? null
  const notKept = useKept(bridge, state)
  const visitNumber = state?.visitNumber
  // What was written for one visit is nothing for another.
  // eslint-disable-next-line react-hooks/exhaustive-deps -- made anew for another visit
  const drafts = useMemo<Drafts>(() => new Map(), [visitNumber])
  const fields = useMemo(
    () => createFieldsInHand(() => visit.now()?.visitNumber === visitNumber),
    // eslint-disable-next-line react-hooks/exhaustive-deps -- made anew for another visit
    [visitNumber],
  )
  const ask = useFile(bridge, visit, fields.leaveAll)
  const out = usePagesOut(bridge, visit, leaveAll)
  usePrintKey(out.print, isAsking)
  const title = file?.name ? windowFrame.titleText(file.name, file.edited) : windowFrame.PROGRAM
  useEffect(() => {
    document.title = title
  }, [title])

  /** Takes in what stands in fields; false where something cannot be, which is told and takes the focus. */
  function leaveAll(): boolean {
    const name = fields.leaveAll()
    if (name === null) return true
    void visit.run('computing', () => {
      visit.tell({ problems: [{ about: null, message: visitForms.notTakenInText(name) }], notices: [] })
      document.querySelector<HTMLElement>('main [aria-invalid=true]')?.focus()
      return Promise.resolve(null)
    })
    return false
  }

  function goTo(to: Step, show: 'lows' | null = null) {
    if (show !== null) setLeft({ list: listOf(show), of: visitNumber })
    setChosen(to)
  }

  function drop(event: DragEvent) {
    event.preventDefault()
    // What the program asked is answered first.
    if (!isAsking) visit.add([...event.dataTransfer.files])
  }

  /** Opens the file picker, unless what was chosen there could not be taken now. */
  function choose() {
    if (busy === '') picker.current?.click()
  }

  /** Asks for a visit: in the desktop's own dialog, in the browser by the same picker. */
  function openVisit() {
    if (busy !== '') return
    if (file?.hasDialogs) ask({ does: 'choose' })
    else choose()
  }

  function goToTyped() {
    setPart('typed')
    setChosen('visit')
  }

  return (
    // eslint-disable-next-line jsx-a11y/no-static-element-interactions -- dropping is a second way; the buttons do the same by key
    <div className="window" onDragOver={(event) => event.preventDefault()} onDrop={drop}>
      <input
        ref={picker}
        type="file"
        multiple
        hidden
        aria-label={windowFrame.FILES_TO_OPEN}
        accept=".csv,.tsv,.txt,.visit,.pdf,.json,.ndjson,text/csv,text/plain,application/pdf,application/json"
        onChange={({ currentTarget }) => {
          visit.add([...(currentTarget.files ?? [])])
          // Else the same file could not be chosen a second time.
          currentTarget.value = ''
        }}
      />
      <Bar
        visit={visit}
        step={step}
        onStep={goTo}
        onSave={() => ask({ does: 'save' })}
        onMakePdf={opened && out.save}
      />
      {file?.asked && <AskedDialog key={file.asked.kind} asked={file.asked} ask={ask} busy={busy !== ''} />}
      {visit.progress && <Progress progress={visit.progress} onCancel={visit.cancel} />}
      <DraftsContext value={drafts}>
        <FieldsContext value={fields}>
          <main>
            <Problems problems={[...(state?.unopened ?? []), ...visit.problems]} fault={visit.fault} />
            <Notices notices={visit.notices} />
            {state && state.visit.label !== '' && <p className="visit-label">{state.visit.label}</p>}
            {opened?.latest && (
              <p className="latest" role="alert">
                {opened.latest}
              </p>
            )}
            {notKept !== '' && (
              <p className="file-caution" role="alert">
                {notKept}
              </p>
            )}
            {file?.cautions.map((caution) => (
              <p key={caution} className="file-caution">
                {caution}
              </p>
            ))}
            {report?.kind === 'empty' && step !== 'visit' && (
              <StartScreen
                bridge={bridge}
                busy={busy !== ''}
                done={visit.done}
                ask={ask}
                onChoose={choose}
                onSample={visit.addSample}
                onOpen={openVisit}
                onType={goToTyped}
              />
            )}
            {state && step === 'visit' && (
              <VisitScreen
                bridge={bridge}
                visit={visit}
                state={state}
                ask={ask}
                part={part}
                onPart={setPart}
                onOpen={openVisit}
              />
            )}
            {state && report && report.kind !== 'empty' && step === 'logs' && (
              <LogsScreen bridge={bridge} state={state} visit={visit} onAdd={choose} onStep={goTo} />
            )}
            {state && opened && step === 'readings' && (
              <ReadingsScreen
                bridge={bridge}
                visit={visit}
                state={state}
                opened={opened}
                list={left !== null && left.of === visitNumber ? left.list : null}
                onList={(list) => setLeft({ list, of: visitNumber })}
                onTyped={goToTyped}
              />
            )}
            {state && opened && step === 'picture' && (
              <PictureScreen bridge={bridge} visit={visit} state={state} opened={opened} onStep={goTo} />
            )}
            {state && opened && step === 'pages' && (
              <PagesScreen bridge={bridge} visit={visit} state={state} opened={opened} out={out} />
            )}
          </main>
        </FieldsContext>
      </DraftsContext>
      <p className="print-hint">{windowFrame.PRINT_HINT}</p>
      <Foot logs={opened?.logs ?? []} status={busy === '' ? visit.done : windowWork.BUSY[busy]} />
    </div>
  )
}

/** Undo and redo by the usual keys; in a field they are the field's own, and nothing while something is asked. */
function useUndoKeys(undo: () => void, redo: () => void, isAsking: boolean) {
  useEffect(() => {
    function pressed(event: KeyboardEvent) {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || isAsking) return
      if (event.target instanceof HTMLElement && event.target.matches('input, textarea')) return
      const key = event.key.toLowerCase()
      if (key === 'z') (event.shiftKey ? redo : undo)()
      else if (key === 'y') redo()
      else return
      event.preventDefault()
    }
    window.addEventListener('keydown', pressed)
    return () => window.removeEventListener('keydown', pressed)
  })
}

/** The usual key prints the pages, never the window; nothing while something is asked. */
function usePrintKey(print: () => void, isAsking: boolean) {
  useEffect(() => {
    function pressed(event: KeyboardEvent) {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.shiftKey) return
      if (event.key.toLowerCase() !== 'p') return
      event.preventDefault()
      if (!isAsking) print()
    }
    window.addEventListener('keydown', pressed)
    return () => window.removeEventListener('keydown', pressed)
  })
}
