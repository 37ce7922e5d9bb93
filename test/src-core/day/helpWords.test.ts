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
  'woke up confused, wife gave juice',
  'juice given by my son',
  'Frau gab Saft',
  'meine Tochter hat mir Traubenzucker gegeben',
  'mon mari m’a donné du jus',
  'mi mujer me dio zumo',
  'a irmã deu sumo',
  'mi hermana dio zumo',
  'mia moglie mi ha dato succo',
  'mijn vrouw gaf sap',
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
  'gave my daughter lunch first',
  'with my wife at the sea',
])('%s: nobody had to', (note) => {
  expect(tellsOfHelp(note)).toBe(false)
})
