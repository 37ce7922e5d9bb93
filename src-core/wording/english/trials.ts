import type { Technique } from '../../technique/technique'
import type { PooledCondition } from '../../technique/trials'
import { signedPercent } from './meters'
import { count, listed, percentText } from './numbers'
import { FAULT_WORDS } from './reasons'

export const TRIALS_MEANING =
  'Tests within half an hour whose notes name a washed baseline and conditions changed on purpose. Steps with changed ' +
  'conditions form no repeat sets and are left out of the checked figures, lows excepted. ‘Within tolerance’ is what the meter ' +
  'standard allows two tests (about ±21 %), too wide to show a wet finger, so each step is also compared with how much repeat tests ' +
  'differ anyway.'

/** 'an effect', or 'not proven (one round shows nothing below 14 %)', never 'no effect'. */
export function verdictText(
  { effect, smallestVisiblePercent }: { readonly effect: boolean; readonly smallestVisiblePercent: number },
  rounds: number,
): string {
  if (effect) return 'an effect'
  const tried = rounds === 1 ? 'one round shows' : `${count(rounds, 'round')} show`
  return `not proven (${tried} nothing below ${percentText(smallestVisiblePercent)} %)`
}

/** 'A wet finger, 3 rounds: −9 % on average, an effect.' */
export function pooledSentence(pooled: PooledCondition): string {
  const words = listed(pooled.faults.map((fault) => FAULT_WORDS[fault]))
  const verdict = verdictText(pooled, pooled.rounds)
  return `${words}, ${count(pooled.rounds, 'round')}: ${signedPercent(pooled.meanDifferencePercent)} on average, ${verdict}.`
}

/** The same of a washed test after the steps, and of another meter or finger: nothing was changed on purpose. */
export function unchangedText(differs: boolean, smallestVisiblePercent: number): string {
  return differs
    ? 'differs by more than repeats do: drift, meter or chance'
    : `no more than repeats differ anyway (${percentText(smallestVisiblePercent)} %)`
}

/** 'Baseline 129, the mean of 3 washed tests; washed again at the end 133.' */
export function baselineSentence(value: string, unit: string, tests: number, closing: string | null): string {
  const opening =
    tests === 1
      ? `Baseline ${value} ${unit}, one washed test`
      : `Baseline ${value} ${unit}, the mean of ${count(tests, 'washed test')}`
  return closing === null
    ? `${opening}; none at the end, so glucose itself may have drifted.`
    : `${opening}; washed again at the end ${closing}, and each step is compared with the line between the two.`
}

/** Stands above the conditions that were tried more than once. */
export const POOLED_TITLE = 'The same condition over its rounds'

/** From what the smallest visible difference is taken. */
export function scatterSentence(scatter: Technique['ownScatter']): string {
  return scatter === null
    ? 'How well this person’s repeat tests outside trials agree is not known; 5 % is assumed.'
    : `This person’s repeat tests vary by ${percentText(100 * scatter.cv)} %, from sets of one meter that agree, outside trials.`
}

export const FAIR_TRIAL =
  'A fair trial: same meter and vial, glucose steady (three hours after food, not after a low, never to dose on); washed, changed, ' +
  'washed again within 15 minutes, on three days. The closing washed test shows the drift.'
