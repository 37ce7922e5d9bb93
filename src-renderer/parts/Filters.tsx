import { useId, useState } from 'react'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import type { FilterChoices, ReadingFilter } from '../../src-core/bridge/readingRows'
import type { VisitCounts } from '../../src-core/bridge/visitView'
import { lengthFault } from '../lengthFault'
import { useWords } from '../words'

interface Props {
  readonly filter: ReadingFilter
  readonly choices: FilterChoices
  readonly counts: VisitCounts
  readonly onChange: (filter: ReadingFilter) => void
}

const ANY = ''
const SHOWS = ['doubtful', 'lows', 'decided', 'all'] as const

/** Which readings are listed. */
export function Filters({ filter, choices, counts, onChange }: Props) {
  const { readingsScreen } = useWords()
  const shows = SHOWS.map((value) => ({ value, label: readingsScreen.showName(value, counts) }))
  const any = { value: ANY, label: readingsScreen.ANY }
  const narrowed = [filter.text !== '', filter.meal, filter.meter, filter.fromHour].filter(
    (part) => part !== null && part !== false,
  ).length
  return (
    <div className="filters" role="group" aria-label={readingsScreen.WHICH}>
      <Select
        name={readingsScreen.SHOW}
        value={filter.show}
        choices={shows}
        onChoose={(value) => {
          const show = shows.find((choice) => choice.value === value)?.value
          if (show) onChange({ ...filter, show })
        }}
      />
      <details>
        <summary>{readingsScreen.searchAndFilter(narrowed)}</summary>
        <div className="filters">
          <Search text={filter.text} onChange={(text) => onChange({ ...filter, text })} />
          {choices.meals.length > 0 && (
            <Select
              name={readingsScreen.MEAL}
              value={filter.meal ?? ANY}
              choices={[any, ...choices.meals]}
              onChoose={(value) =>
                onChange({
                  ...filter,
                  meal: choices.meals.find((choice) => choice.value === value)?.value ?? null,
                })
              }
            />
          )}
          {choices.meters.length > 1 && (
            <Select
              name={readingsScreen.METER}
              value={filter.meter === null ? ANY : String(filter.meter)}
              choices={[any, ...choices.meters.map(asText)]}
              onChoose={(value) => onChange({ ...filter, meter: value === ANY ? null : Number(value) })}
            />
          )}
          <Select
            name={readingsScreen.HOURS}
            value={filter.fromHour === null ? ANY : String(filter.fromHour)}
            choices={[any, ...choices.hours.map(asText)]}
            onChoose={(value) => onChange({ ...filter, fromHour: value === ANY ? null : Number(value) })}
          />
        </div>
      </details>
    </div>
  )
}

/** What is too long is told, and the list stays as it was. */
function Search({ text, onChange }: { readonly text: string; readonly onChange: (text: string) => void }) {
  const words = useWords()
  const { readingsScreen } = words
  const [long, setLong] = useState<string | null>(null)
  const id = useId()
  return (
    <label className="search">
      {readingsScreen.SEARCH}
      <input
        type="search"
        value={long ?? text}
        placeholder={readingsScreen.SEARCH_EXAMPLE}
        aria-invalid={long !== null}
        aria-describedby={long === null ? undefined : id}
        onChange={({ currentTarget: { value } }) => {
          const isLong = value.length > MESSAGE_LIMITS.label
          setLong(isLong ? value : null)
          if (!isLong) onChange(value)
        }}
      />
      {long !== null && (
        <span id={id} className="missing">
          {lengthFault(words, long, MESSAGE_LIMITS.label)}
        </span>
      )}
    </label>
  )
}

function asText({ value, label }: { readonly value: number; readonly label: string }) {
  return { value: String(value), label }
}

function Select(props: {
  readonly name: string
  readonly value: string
  readonly choices: readonly { readonly value: string; readonly label: string }[]
  readonly onChoose: (value: string) => void
}) {
  const { name, value, choices, onChoose } = props
  return (
    <label>
      {name}
      <select value={value} onChange={({ currentTarget }) => onChoose(currentTarget.value)}>
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
    </label>
  )
}
