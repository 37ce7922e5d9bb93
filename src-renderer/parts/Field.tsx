import { useId } from 'react'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import { lengthFault } from '../lengthFault'
import type { FieldSpec } from './formSpecs'
import { useWords } from '../words'

interface Props {
  readonly spec: FieldSpec
  readonly value: string
  /** '' where nothing is wrong; what is too long is told in any case. */
  readonly fault: string
  readonly onChange: (value: string) => void
  /** Left, or finished with Enter. */
  readonly onLeave?: () => void
}

const TYPES = { text: 'text', date: 'date', time: 'time', moment: 'datetime-local', number: 'text' } as const

/** One field with its name, its hint, and what is wrong with it. */
export function Field({ spec, value, fault: found, onChange, onLeave }: Props) {
  const words = useWords()
  const id = useId()
  const fault = lengthFault(words, value, MESSAGE_LIMITS.words) || found
  const { name, label, kind, hint, needed, choices = [], wide } = spec
  const described = [hint && `${id}-hint`, fault && `${id}-fault`].filter((part) => part)
  const shared = {
    id,
    name,
    value,
    'aria-required': needed,
    'aria-invalid': fault !== '',
    'aria-describedby': described.length > 0 ? described.join(' ') : undefined,
    onChange: ({ currentTarget }: { readonly currentTarget: { readonly value: string } }) =>
      onChange(currentTarget.value),
    onBlur: onLeave,
  }
  return (
    <div className={wide ? 'control wide' : 'control'}>
      <label htmlFor={id}>{label}</label>
      {kind === 'choice' ? (
        <select {...shared}>
          {choices.map((choice) => (
            <option key={choice.value} value={choice.value}>
              {choice.label}
            </option>
          ))}
        </select>
      ) : kind === 'words' ? (
        <textarea {...shared} rows={2} />
      ) : (
        <input
          {...shared}
          type={TYPES[kind]}
          inputMode={kind === 'number' ? 'decimal' : undefined}
          autoComplete="off"
          onKeyDown={({ key }) => key === 'Enter' && onLeave?.()}
        />
      )}
      {hint && (
        <span id={`${id}-hint`} className="quiet hint">
          {hint}
        </span>
      )}
      {fault !== '' && (
        <span id={`${id}-fault`} className="missing">
          {fault}
        </span>
      )}
    </div>
  )
}
