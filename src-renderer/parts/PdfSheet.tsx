import { useEffect, useRef, useState } from 'react'
import type { PdfPages } from '../pdfPages'
import { useWords } from '../words'

interface Props {
  readonly pages: PdfPages
  readonly number: number
  /** Share of the natural size; null fits the width of the window. */
  readonly zoom: number | null
}

interface Drawn {
  readonly pages: PdfPages
  readonly text: readonly string[]
}

/** CSS pixels of a point. */
const PIXELS_PER_POINT = 96 / 72

/** One page as it will be printed, and its text. */
export function PdfSheet({ pages, number, zoom }: Props) {
  const { pagesScreen } = useWords()
  const frame = useRef<HTMLDivElement>(null)
  const sheet = useRef<HTMLCanvasElement>(null)
  /** What stands on the sheet: nothing of other pages is left to be read as if it were of these. */
  const [drawn, setDrawn] = useState<Drawn | null>(null)
  const [room, setRoom] = useState(0)
  useEffect(() => {
    const element = frame.current
    if (!element) return
    const observer = new ResizeObserver(() => setRoom(element.clientWidth))
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  useEffect(() => {
    const shown = sheet.current
    if (!shown || room === 0) return
    let current = true
    async function draw(onto: HTMLCanvasElement) {
      const natural = (await pages.points(number)) * PIXELS_PER_POINT
      if (!current) return
      const width = Math.round(zoom === null ? room : natural * zoom)
      // Drawn beside the one that is seen, so that nothing flickers.
      const canvas = document.createElement('canvas')
      await pages.draw(number, canvas, Math.round(width * window.devicePixelRatio))
      if (!current) return
      const lines = await pages.text(number)
      if (!current) return
      onto.width = canvas.width
      onto.height = canvas.height
      onto.style.width = `${width}px`
      onto.getContext('2d')?.drawImage(canvas, 0, 0)
      onto.dataset.page = String(number)
      setDrawn({ pages, text: lines })
    }
    draw(shown).catch(() => {
      // Closed meanwhile: another PDF has taken its place.
    })
    return () => {
      current = false
    }
  }, [pages, number, zoom, room])
  const isDrawn = drawn?.pages === pages
  return (
    <>
      <div
        ref={frame}
        className="sheet-frame"
        role="group"
        aria-label={pagesScreen.pageAsPrinted(number, pages.count)}
        // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a scrolling region must be reachable by key
        tabIndex={0}
      >
        <div role="img" aria-label={pagesScreen.pageWithText(number, pages.count)}>
          <canvas ref={sheet} data-drawn={isDrawn} />
        </div>
      </div>
      <details>
        <summary>{pagesScreen.textOfPage(number)}</summary>
        {isDrawn && drawn.text.map((line, position) => <p key={position}>{line}</p>)}
      </details>
    </>
  )
}
