import { cellKind } from './cellKind'

// A text in the first column whose own delimiter nobody quoted: 'Mon; Tue;2026-03-02;44' has pushed the row to the right.

/**
 * The cells with the first text put together again, where the row has more cells than its header, its date stands as
 * many places too far to the right, and only texts stand before it; as they are everywhere else. `date` is the column of
 * the date, `width` the number of columns of the header.
 */
export function joinedFirstText(
  cells: readonly string[],
  date: number | null,
  width: number,
  delimiter: string,
): readonly string[] {
  const excess = cells.length - width
  if (excess <= 0 || date !== 1 || cellKind(cells[date]) !== 'text') return cells
  const found = cellKind(cells[date + excess] ?? '')
  if (found !== 'day' && found !== 'moment') return cells
  const parts = cells.slice(0, date + excess)
  if (!parts.every((cell) => ['text', 'blank'].includes(cellKind(cell)))) return cells
  return [parts.join(delimiter), ...cells.slice(date + excess)]
}
