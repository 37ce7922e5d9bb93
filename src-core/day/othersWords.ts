import { tellsOfHelp } from './helpWords'
import { plain } from '../log/words/plain'

/** How a language tells whose a reading is, in the form that `plain` gives: alternatives of regular expressions. */
interface Language {
  /** Whom a meter may be lent to. */
  readonly persons: string
  /** Who may be a nurse too: somebody else only as 'my sister'. Null where the language has no such word. */
  readonly nurses: string | null
  /** 'my'. */
  readonly own: string
  /** 'the'. */
  readonly article: string
  /** What was measured: 'reading', 'blood'. */
  readonly measured: string
  /** Between what was measured and the person: 'of', 'for'. */
  readonly of: string
  /** The same where person and word stand alone: 'for my son'. */
  readonly alone: string
  /** Between person and verb: 'has'. */
  readonly aux: string
  /** Behind the person: 'tested', 'used my meter'. */
  readonly tested: string
  /** Behind 'for my son': 'tested'. */
  readonly done: string
  /** What makes of 'Vater' the 'Vaters' in 'Vaters Messung'. Null where the language has none. */
  readonly genitive: string | null
  /** 'this is', 'maybe'. */
  readonly lead: string
  readonly notMine: string
  readonly somebodyElse: string
  /** 'after', before a meal or an hour. */
  readonly when: string
  /** Behind that it tells that it is the person after all. */
  readonly me: string
}

const LANGUAGES: readonly Language[] = [
  {
    persons:
      'wife|husband|spouse|partner|girlfriend|boyfriend|son|daughter|mother|mum|mom|mummy|mommy|father|dad|daddy|brother|' +
      'grand(ma|mother|pa|father|son|daughter)|granny|grandad|child|kid|neighbou?r|friend|colleague|aunt|uncle|cousin|' +
      'room ?mate|(mother|father|brother) in law|dog|cat',
    nurses: 'sister',
    own: 'my|our|his|her',
    article: 'the|a',
    measured:
      'readings?|tests?|values?|results?|blood|(blood )?(sugar|glucose)|bg|numbers?|measurements?|finger(stick| stick)?|one',
    of: 'of|from|for|on',
    alone: 'for',
    aux: 'has|was|is',
    tested:
      '(tested|tests|testing|measured)( too| also| (her|him)self| (her|his)( own)? (blood|sugar|glucose|bg))?( (with|on) (my|this|the) meter)?|' +
      '(used|borrowed|had) ((my|the|this) )?meter',
    done: 'tested|measured|done',
    genitive: ' ?s( own)?',
    lead: '(this|that|it)( one)?( reading| test)? (is|was|s)|probably|maybe|perhaps|(meter |was |it was )?(tested|measured|done|used|lent)( it| this| meter)?',
    notMine:
      '((this|that|it) )?((is|was) )?(not|isn t|wasn t|isnt|wasnt) (mine|my (own )?(readings?|test|value|result|blood|(blood )?(sugar|glucose)|bg|number))|not me',
    somebodyElse:
      '(some ?(one|body) else|(an)?other person|other patient|wrong person)( s)?( readings?| test| blood| value| used (it|(the|my|this) meter)| tested)?',
    when: 'after|before|at',
    me: 'me|my|mine|myself|i',
  },
  {
    persons:
      '(ehe)?frau|(ehe)?mann|partner(in)?|sohn|tochter|(gross|schwieger)?(mutter|vater)|mama|mutti|papa|vati|bruder|oma|opa|' +
      'kind|enkel(in)?|nachbar(in|n)?|freund(in)?|kolleg(e|in|en)|tante|onkel|hund|katze',
    nurses: 'schwester',
    own: 'mein(e|er|em|en|es|s)?|unser(e|er|em|en)?',
    article: 'der|dem|den|die',
    measured: 'mess(ung|wert)|test|wert|ergebnis|blut|(blut)?zucker|bz|gemessen( (bei|fur))?',
    of: 'von|vom|fur|bei|beim',
    alone: 'von|fur',
    aux: 'hat|hat sich',
    tested: '(selbst |auch |sich )?(gemessen|getestet)|(hat )?mein (gerat|messgerat) benutzt',
    done: 'gemessen|getestet',
    genitive: 's|ns|es',
    lead: '(das|dies)( ist| war)?|vielleicht|wohl|wahrscheinlich|(ist|war|gemessen|getestet)',
    notMine:
      '((das|dies) )?((ist|war) )?nicht (mein(e|er|s|es)?( eigene[rs]?)?( (messung|test|wert|ergebnis|blut|(blut)?zucker|bz))?|von mir)',
    somebodyElse:
      '(von |fur |bei )?(jemand(em|en)? ander(s|e|es|en|em|er)|(eine[rn]? )?ander(e|en|er) person|fremde[rs]? (messung|wert|blut|test))( gemessen| messung)?',
    when: 'nach|vor|um',
    me: 'mir|mich|mein(e|er|em|en)?|ich',
  },
  {
    persons:
      'femme|mari|epouse?|epoux|conjointe?|compagn(e|on)|fils|fille|(grand |belle |beau )?(mere|pere)|maman|papa|mamie|papie?|' +
      'frere|enfant|voisine?|amie?|copain|copine|collegue|tante|oncle|chien|chat',
    nurses: 'soeur',
    own: 'mon|ma|mes|notre',
    article: 'la|le|l|un|une',
    measured: 'mesure|test|valeur|resultat|sang|glycemie|controle|sucre',
    of: 'de|du|d|pour|chez|a',
    alone: 'pour|de',
    aux: 'a|s est',
    tested: '(teste|testee|mesure|mesuree)|a utilise (mon|le) (lecteur|appareil)',
    done: 'teste|mesure|fait',
    genitive: null,
    lead: 'c (est|etait)|(celle|celui)|peut etre|(mesure|teste|fait)',
    notMine:
      '(ce n (est|etait) )?pas (a moi|de moi|la mienne|le mien|(ma|mon) (mesure|test|valeur|resultat|sang|glycemie|sucre))',
    somebodyElse: '(de |d |pour |mesure d |mesure de )?(quelqu un d autre|(une? )?autre personne)',
    when: 'apres|avant|a',
    me: 'moi|ma|mon|mes|me|m|je',
  },
  {
    persons:
      'mujer|espos[oa]|marido|pareja|novi[oa]|hij[oa]|madre|mama|padre|papa|herman[oa]|abuel[oa]|nin[oa]|niet[oa]|' +
      'vecin[oa]|amig[oa]|companer[oa]|suegr[oa]|ti[oa]|perr[oa]|gat[oa]',
    nurses: null,
    own: 'mi|mis|nuestr[oa]|su',
    article: 'el|la|un|una',
    measured: 'medicion|medida|prueba|test|lectura|valor|resultado|sangre|glucosa|glucemia|azucar|toma',
    of: 'de|del|para|a',
    alone: 'de|para',
    aux: 'se|se ha|ha',
    tested: 'midio|medido|hizo la prueba|uso (mi|el) (medidor|glucometro|aparato)',
    done: 'medido|medida|hecho|hecha',
    genitive: null,
    lead: '(esto |esta |este )?(es|era|fue)|(la|el)|quizas|(medido|hecho)',
    notMine:
      '(esto |esta |este )?no (es |era |fue )?(mi[oa]|mi (medicion|medida|prueba|test|lectura|valor|resultado|sangre|glucosa|glucemia|azucar))',
    somebodyElse: '(medicion |medida |prueba |lectura )?(de |para |es de |era de )?otra persona',
    when: 'despues|antes|a',
    me: 'mi|me|yo|conmigo',
  },
  {
    persons:
      'mulher|espos[oa]|marido|companheir[oa]|namorad[oa]|filh[oa]|mae|mamae|pai|papai|irmao|irma|avo|vovo|crianca|net[oa]|' +
      'vizinh[oa]|amig[oa]|colega|sogr[oa]|ti[oa]|cao|cachorro|gat[oa]',
    nurses: null,
    own: '(o |a )?(meu|minha)|noss[oa]',
    article: 'o|a|um|uma',
    measured: 'medicao|medida|teste|leitura|valor|resultado|sangue|glicose|glicemia|acucar',
    of: 'de|do|da|para|para o|para a|pro|pra',
    alone: 'de|do|da|para|pro|pra',
    aux: 'se',
    tested: '(mediu|testou)( se)?|usou (meu|o meu|o) (medidor|glicosimetro|aparelho)',
    done: 'medido|medida|feito|feita',
    genitive: null,
    lead: '(isto |isso |este |esse )?(e|era|foi)|talvez|(medido|feito)',
    notMine:
      '(isto |isso |este |esse )?nao (e |era |foi )?((o )?meu|(a )?minha)( (medicao|medida|teste|leitura|valor|resultado|sangue|glicose|glicemia|acucar))?',
    somebodyElse: '(medicao |teste |leitura )?(de |para |e de |era de )?outra pessoa',
    when: 'depois|antes|as',
    me: 'mim|me|meu|minha|eu',
  },
  {
    persons:
      'moglie|marito|compagn[oa]|fidanzat[oa]|figli[oa]|madre|mamma|padre|papa|babbo|fratello|nonn[oa]|bambin[oa]|nipote|' +
      'vicin[oa]|amic[oa]|colleg(a|o)|suocer[oa]|zi[oa]|cane|gatt[oa]',
    nurses: 'sorella',
    own: 'mi[oa]|nostr[oa]',
    article: 'il|la|l|un|una',
    measured: 'misura|misurazione|test|prova|lettura|valore|risultato|sangue|glicemia|zucchero',
    of: 'di|del|della|dell|per|per il|per la|a',
    alone: 'di|del|della|per',
    aux: 'ha|si e',
    tested: 'misurat[oa]|si e misurat[oa]|ha usato (il mio|il) (misuratore|glucometro|apparecchio)',
    done: 'misurat[oa]|fatt[oa]',
    genitive: null,
    lead: '(questo |questa )?(e|era)|forse|(misurat[oa]|fatt[oa])',
    notMine:
      '(questo |questa )?non (e |era )?((il )?mio|(la )?mia)( (misura|misurazione|test|prova|lettura|valore|risultato|sangue|glicemia))?',
    somebodyElse:
      '(misura |misurazione |test |prova )?(di |per |e di |era di )?(un )?(altra persona|qualcun altro)',
    when: 'dopo|prima|alle',
    me: 'me|mi|mio|mia|io',
  },
  {
    persons:
      '(echtgenoot|echtgenote)|vrouw|man|partner|zoon|dochter|(groot|schoon)?(moeder|vader)|mama|mam|papa|pap|broer|oma|opa|' +
      'kind|kleinkind|buur(man|vrouw)|vriend(in)?|collega|tante|oom|hond|kat',
    nurses: 'zus',
    own: 'mijn|m n|ons|onze',
    article: 'de|het|een',
    measured: 'meting|test|waarde|uitslag|bloed|bloed(suiker|glucose)|suiker',
    of: 'van|voor|bij',
    alone: 'van|voor',
    aux: 'heeft|heeft zich',
    tested: '(zelf |ook |zich )?(gemeten|getest)|heeft mijn meter gebruikt',
    done: 'gemeten|getest',
    genitive: ' ?s',
    lead: '(dit|dat)( is| was)?|misschien|(is|was|gemeten|getest)',
    notMine:
      '((dit|dat) )?((is|was) )?niet (van mij|de mijne|mijn( eigen)? (meting|test|waarde|uitslag|bloed|bloed(suiker|glucose)|suiker))',
    somebodyElse: '(van |voor |bij |meting van )?(iemand anders|(een )?ander(e)? persoon)',
    when: 'na|voor|om',
    me: 'mij|me|mijn|ik',
  },
]

const PATTERNS: readonly RegExp[] = LANGUAGES.map(patternOf)

/** All that a part of a note may be for it to tell of somebody else; what says more is silent. */
function patternOf(language: Language): RegExp {
  const { persons, nurses, own, article, measured, of, alone, aux, tested, done, genitive } = language
  const person = `((${own}|${article}) )?(${persons})`
  const whose = nurses === null ? person : `(${person}|(${own}) (${nurses}))`
  const told = [
    language.notMine,
    language.somebodyElse,
    // 'Messung Vater', 'reading of my wife'
    `(${measured}) ((${of}) )?${whose}`,
    // 'for my son', 'de mi madre'
    `(${alone}) ${whose}( (${done}))?`,
    // 'wife tested'
    `${whose} ((${aux}) )?(${tested})`,
    // 'wife's reading', 'Vaters Messung'
    ...(genitive === null ? [] : [`${whose}(${genitive}) (${measured})`]),
  ]
  const tail = `( (${language.when})( (?!(${language.me})\\b)[a-z0-9]+){1,3})?`
  return new RegExp(`^((${language.lead}) )?(${told.join('|')})${tail}$`)
}

/**
 * Whether a note, in English, German, French, Spanish, Portuguese, Italian or Dutch, says that the reading may be somebody else's: 'wife tested', 'for my son',
 * 'not mine'. It is offered to the person to decide and bears on no figure and no doubt. Silent where somebody helped.
 */
export function tellsOfAnother(note: string): boolean {
  if (note === '' || tellsOfHelp(note)) return false
  return note
    .split(/[,.;:!?()/\n\r–—]|\s-\s/)
    .map(plain)
    .some((part) => part !== '' && PATTERNS.some((pattern) => pattern.test(part)))
}
