/** A table as text; a cell that holds the delimiter or a quote is quoted (RFC 4180). */
export function table(header, rows, { delimiter = ',', newline = '\n', byteOrderMark = false } = {}) {
  const cell = (text) =>
    text.includes(delimiter) || text.includes('"') ? `"${text.replaceAll('"', '""')}"` : text
  const lines = [header, ...rows].map((cells) => cells.map(cell).join(delimiter))
  return (byteOrderMark ? '\uFEFF' : '') + lines.join(newline) + newline
}
