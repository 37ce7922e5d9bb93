import { expect, it } from 'vitest'
import { tellsOfHelp } from '../../../src-core/day/helpWords'

it.each([
  'found by wife',
  'Found unconscious, ambulance',
  'wife helped with juice',
  'not feeling well, wife helped',
  'help needed',
  'glucagon given',
  'passed out at work',
  'Notarzt gerufen',
  'bewusstlos, Frau hat geholfen',
  'Rettungswagen',
  'évanouie, urgences',
  'ambulancia',
  'svenuto',
  'bewusteloos gevonden',
])('%s: somebody helped', (note) => {
  expect(tellsOfHelp(note)).toBe(true)
})

it.each([
  '',
  'no help needed',
  'No ambulance',
  'did not pass out',
  'without glucagon',
  'hat nicht geholfen',
  'kein Notarzt',
  'pas d’ambulance',
  'sin ambulancia',
  'juice helped',
  'Traubenzucker hat geholfen',
  'shaky, ate three sugar cubes',
  'helpful walk',
])('%s: nobody had to', (note) => {
  expect(tellsOfHelp(note)).toBe(false)
})
