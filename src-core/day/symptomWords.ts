import { plain } from '../log/words/plain'

// Words of English, German, French, Spanish, Portuguese, Italian and Dutch in the form that `plain` gives.
const SYMPTOMS =
  /\b(shaky|shaking|trembl\w+|sweat\w*|dizz\w+|faint|lightheaded|hypo|hypoglyc\w+|felt (low|high|bad|unwell|ill|funny|strange|weak)|feel\w* (low|high|bad|unwell|ill|funny|strange|weak)|unwell|thirsty|blurr\w+|zittr\w+|zitter\w*|schwitz\w+|schwind\w+|unterzuck\w+|durst\w*|unwohl|tremblement\w*|sueurs?|vertige\w*|malaise|soif|temblor\w*|sudor\w*|mareo|mareado|mareada|sed|tremor\w*|suor\w*|tontura\w*|sede|tremore|sudorazione|capogir\w+|sete|trillerig|beverig|zwet\w+|duizelig|dorst\w*)\b/
const NOT = /\b(no|not|without|kein\w*|nicht|ohne|pas|sans|sin|sem|nao|senza|non|geen|niet|zonder)\b/

/** Whether a note tells of something felt that makes people test. */
export function tellsOfSymptoms(note: string): boolean {
  if (note === '') return false
  const words = plain(note)
  return SYMPTOMS.test(words) && !NOT.test(words)
}
