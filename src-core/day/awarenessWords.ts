import { plain } from '../log/words/plain'

// Words of English, German, French, Spanish, Portuguese, Italian and Dutch in the form that `plain` gives.

/** What is felt of a low and of little else; sweat and dizziness come with much besides. */
const FELT_LOW = new RegExp(
  `\\b(${[
    'shaky|shaking|the shakes|trembl\\w+|(felt|feel|feels|feeling)( \\w+){0,2} (low(?! (mood|spirit))|hypo)\\b|hypo (feeling|symptoms?)|(low|hypo) symptoms|symptoms of an? (low|hypo)',
    'zittrig\\w*|gezittert|unterzuck\\w+|hypogefuhl|hypo (gefuhl|gespurt|gefuhlt)|(fuhlte?|gefuhlt)( \\w+){0,3} (niedrig|tief|hypo)',
    '(sensation|impression|signes?|symptomes?) d hypo\\w*|(senti|sentie|sentais|sens|ressenti|ressentie)( \\w+){0,2} (bas|basse|hypo\\w*)|tremblements?|tremblante?',
    '(senti|sentia|siento|sensacion|sintomas?)( \\w+){0,2} (baj[oa]|bajon|hipo\\w*)|temblor\\w*|temblando',
    '(sensacao|sintomas?|sinto)( \\w+){0,2} (baix[oa]|hipo\\w*)|senti( me)?( \\w+)? (baix[oa]|hipo\\w*)|tremor\\w*|tremendo|tremul[oa]',
    '(sentit[oa]|sentivo|sento|sensazione|sintomi?)( \\w+){0,2} (bass[oa]|ipo\\w*)|tremore|tremori|tremante|tremavo',
    '(voelde?|gevoel)( \\w+){0,3} (laag|hypo)|hypogevoel|hypo gevoel|trillerig\\w*|beverig\\w*',
  ].join('|')})\\b`,
)
const NOT =
  /\b(no|not|never|without|didn t|didnt|wasn t|wasnt|kein\w*|nicht|nie|ohne|pas|sans|aucun\w*|sin|sem|nao|senza|nessun\w*|non|geen|niet|nooit|zonder)\b/

/** What tells that a low was not felt; 'not that' and the like say something else. */
const NOTHING_FELT = new RegExp(
  `\\b(${[
    '(no|without|zero) (low |hypo |warning )?(symptoms?|signs?|warning)|symptom ?free|asymptomatic|(hypo )?unaware|felt (nothing|fine|ok|okay|normal)|(did not|didn t|didnt|could not|couldn t|couldnt) (feel|notice) (it|this|that|anything|a thing|(the |this |a )?(low|hypo))|nothing felt|never felt it',
    'nichts (davon )?(gemerkt|bemerkt|gespurt|gefuhlt)|nicht (gemerkt|bemerkt|gespurt)(?! (dass|wie))|(keine|ohne) ((unterzuckerungs|hypo)?symptome|anzeichen|beschwerden|warnzeichen)|symptom(frei|los)',
    '(pas de|sans|aucun) (symptomes?|signes?)|rien (senti|ressenti|remarque)|pas (senti|ressentie?)(?! (le|la|de|que))|asymptomatique',
    'sin (sintomas?|sintoma alguno)|ningun sintoma|no (lo |la )?(note|notado|he notado|senti|he sentido)( nada)?$|asintomatic[oa]',
    'sem sintomas?|nenhum sintoma|nao (o |a )?(senti|notei|percebi)( nada)?$|assintomatic[oa]',
    'senza sintomi|nessun sintomo|non (l )?(ho )?(sentit[oa]|notat[oa]|avvertit[oa])( (niente|nulla))?$|asintomatic[oa]',
    '(geen|zonder) (symptomen|klachten|verschijnselen)|(niets|niks) (van )?(gemerkt|gevoeld)|niet (gemerkt|gevoeld)(?! (dat|hoe))',
  ].join('|')})(?!\\w)`,
)
/** Then the opposite is told: 'not without symptoms'. */
const DENIED = /\b(not|nicht|pas|no|nao|non|niet) (without|ohne|sans|sin|sem|senza|zonder)\b/

/** A negation holds for its own part of a note. */
function partsOf(note: string): readonly string[] {
  return note === '' ? [] : note.split(/[,.;:!?()/\n\r–—]/).map(plain)
}

/** Whether a note tells that a low was felt, as far as one can feel it: 'felt low', 'shaky'. */
export function tellsOfFeelingLow(note: string): boolean {
  return partsOf(note).some((part) => FELT_LOW.test(part) && !NOT.test(part))
}

/** Whether a note tells that nothing of a low was felt: 'no symptoms', 'did not feel it'. */
export function tellsOfNothingFelt(note: string): boolean {
  return partsOf(note).some((part) => NOTHING_FELT.test(part) && !DENIED.test(part))
}
