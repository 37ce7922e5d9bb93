/** Order of day, month and year that a header or a units row spells out, such as '(DD/MM/YYYY)'. */
export function dateOrderInHeader(header: string): 'ymd' | 'dmy' | 'mdy' | null {
  const text = header.toLowerCase()
  if (
    /(?<!\p{L})(d{1,2}|g{1,2}|t{1,2}|j{1,2}|p{1,2}|n{1,2}|д{1,2}|η{1,2})[./ -]+(m{1,3}|k{1,2}|м{1,2}|μ{1,2}|a{2})[./ -]+(y{2,4}|a{2,4}|j{2,4}|v{2,4}|r{2,4}|å{2,4}|г{2,4}|ε{2,4})(?!\p{L})/u.test(
      text,
    )
  )
    return 'dmy'
  if (
    /(?<!\p{L})m{1,3}[./ -]+(d{1,2}|g{1,2}|t{1,2}|j{1,2})[./ -]+(y{2,4}|a{2,4}|j{2,4})(?!\p{L})/u.test(text)
  )
    return 'mdy'
  if (
    /(?<!\p{L})(y{2,4}|a{2,4}|j{2,4}|é{2,4}|r{2,4})[./ -]+(m{1,3}|h{1,2})[./ -]+(d{1,2}|g{1,2}|t{1,2}|j{1,2}|n{1,2})(?!\p{L})/u.test(
      text,
    )
  )
    return 'ymd'
  return null
}
