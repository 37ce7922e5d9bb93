import type { Settings } from '../../model/settings'
import type { RangeFault, WrongRange } from '../../analysis/targets'
import type { Message } from '../message'
import { type GlucoseUnit, otherUnit } from '../../units/glucose'

/** An option of the command line that takes two ends. */
export type RangeOption = '--targets' | '--goal'

const FORMS: Readonly<Record<RangeOption, string>> = {
  '--targets':
    'Write --targets 70..180 or --targets 3.9..10.0 (in the unit printed), pregnancy, older-adult or frail.',
  '--goal': 'Write --goal 90..150 or --goal 5.0..8.3 (in the unit printed).',
}

/** Why a target or goal cannot be used, whatever the unit. */
export function wrongRangeMessage(option: RangeOption, text: string, fault: RangeFault): string {
  switch (fault) {
    case 'form':
      return `${option}: '${text}' is not a range${option === '--targets' ? ' and not a known group' : ''}. ${FORMS[option]}`
    case 'order':
      return `${option}: in '${text}' the first number must be the smaller. ${FORMS[option]}`
    case 'size':
      return `${option}: '${text}' is not a glucose range of either unit. ${FORMS[option]}`
  }
}

const EXAMPLES: Readonly<Record<RangeOption, Readonly<Record<GlucoseUnit, string>>>> = {
  '--targets': { 'mg/dL': '70..180', 'mmol/L': '3.9..10.0' },
  '--goal': { 'mg/dL': '90..150', 'mmol/L': '5.0..8.3' },
}

const RANGES = { targets: 'The target', goal: 'The goal before meals' } as const

/** The ends cannot be of the unit that is printed. */
export function wrongRangeUnitMessage({ of, request }: WrongRange, unit: GlucoseUnit): Message {
  const option: RangeOption = `--${of}`
  const { low, high } = request
  return {
    what: `${RANGES[of]} of ${low} to ${high} is not a range in ${unit}, the unit that is printed.`,
    inTerminal: `Write ${option} in ${unit} (such as ${EXAMPLES[option][unit]}), or print in the other unit with --unit ${otherUnit(unit)}.`,
    inWindow: `Write it in ${unit}, or choose the other unit.`,
  }
}

/** For whom the target holds, in few words for a large figure; null without a preset. */
export function presetName({ targetPreset }: Pick<Settings, 'targetPreset'>): string | null {
  switch (targetPreset) {
    case null:
      return null
    case 'pregnancy':
      return 'target in pregnancy'
    case 'older-adult':
      return 'target for older adults'
    case 'frail':
      return 'target for frail older adults'
  }
}

/** What the preset is, beside the definition of the target. */
export function presetSentence({ targetPreset }: Pick<Settings, 'targetPreset'>): string {
  const consensus =
    'The range is the usual one; for time measured by a sensor the consensus asks for more than 50 % in it and less ' +
    'than 1 % below 70 mg/dL (3.9 mmol/L).'
  switch (targetPreset) {
    case null:
      return ''
    case 'pregnancy':
      return ' Target chosen: pregnancy. The limits of lows and of 180 and 250 mg/dL (10.0 and 13.9 mmol/L) stay the same.'
    case 'older-adult':
      return ` Target chosen: older adults and people at high risk. ${consensus}`
    case 'frail':
      return ` Target chosen: older adults in very poor health, among those at high risk. ${consensus}`
  }
}

/** What pregnancy does to an A1C; stands in place of a large estimate. */
export const A1C_IN_PREGNANCY =
  'in pregnancy, and for some months after, an A1C reads lower than glucose would suggest: do not go by an estimate of it'
