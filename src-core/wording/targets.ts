import type { Settings } from '../analysis/settings'
import type { GlucoseUnit } from '../units/glucose'

const FORMS =
  'Write --targets 70..180 or --targets 3.9..10.0 (in the unit printed), pregnancy or older-adult.'

/** Why a target cannot be used, whatever the unit. */
export function wrongTargetsMessage(text: string, fault: 'form' | 'order' | 'size'): string {
  switch (fault) {
    case 'form':
      return `--targets: '${text}' is no range and no known group. ${FORMS}`
    case 'order':
      return `--targets: in '${text}' the first number must be the smaller. ${FORMS}`
    case 'size':
      return `--targets: '${text}' is no glucose range of either unit. ${FORMS}`
  }
}

/** The ends cannot be of the unit that is printed. */
export function wrongTargetsUnitMessage(low: number, high: number, unit: GlucoseUnit): string {
  const other = unit === 'mg/dL' ? 'mmol/L' : 'mg/dL'
  const example = unit === 'mg/dL' ? '70..180' : '3.9..10.0'
  return (
    `--targets: ${low}..${high} is no range in ${unit}, the unit that is printed. ` +
    `Write it in ${unit} (such as ${example}), or print in the other unit with --unit ${other}.`
  )
}

/** For whom the target holds, in few words for a large figure; null without a preset. */
export function presetName({ targetPreset }: Pick<Settings, 'targetPreset'>): string | null {
  if (targetPreset === null) return null
  return targetPreset === 'pregnancy' ? 'target in pregnancy' : 'target for older adults'
}

/** What the preset is, beside the definition of the target. */
export function presetSentence({ targetPreset }: Pick<Settings, 'targetPreset'>): string {
  switch (targetPreset) {
    case null:
      return ''
    case 'pregnancy':
      return ' Target chosen: pregnancy. The limits of lows and of 180 and 250 mg/dL (10.0 and 13.9 mmol/L) stay the same.'
    case 'older-adult':
      return (
        ' Target chosen: older adults and people at high risk. The range is the usual one; for time measured by a sensor the ' +
        'consensus asks for more than 50 % in it and less than 1 % below 70 mg/dL (3.9 mmol/L).'
      )
  }
}
