// Words of English, German, French, Spanish, Portuguese, Italian and Dutch by what they mean in a note beside a
// reading: lower case, no accents. 'wash*' stands for every word that begins so, '*saft' for every word that
// ends so.

const WORDS = {
  not:
    'not no never without nor nothing didnt dont wasnt isnt werent arent havent hadnt hasnt couldnt cant forgot skipped ' +
    'nicht kein* ohne nie pas sans non aucun* jamais oublie sin nunca ningun* olvid* ' +
    'sem nao nenhum* esquec* senza nessun* dimentic* niet geen zonder nooit vergat',
  /** Denies what stands before it: 'Händewaschen vergessen'. */
  notAfter: 'vergessen vergeten forgotten',
  or: 'or nor oder ou of',
  place:
    'finger* thumb thumbs hand hands handen hande skin haut daumen doigt* main mains peau pouce ' +
    'dedo* mano manos piel pulgar mao maos pele polegar dito dita mani pelle pollice polpastrell* vinger* huid duim',
  wash:
    'wash* rinse* rinsing clean cleaned cleaning gewaschen waschen wusch handewasch* sauber* gereinigt gespult ' +
    'lave laver lavage lavees lavee laves propre propres nettoy* rince* lavar* lavad* lavei lavou lavo lavando ' +
    'limpia* limpio* limpa* limpo* lavat* lavare lavaggio pulit* gewassen wassen handenwassen schoon schone gespoeld',
  unwashed: 'unwashed ungewaschen* ongewassen',
  dirty:
    'dirty filthy grubby soiled unclean schmutzig* dreckig* unsauber* sale sales crasseu* sucia* sucio* suja* sujo* sporc* ' +
    'vies vieze vuil*',
  dry:
    'dry dried drying towel* trocken* getrocknet abgetrocknet sec seche* sechage seca* seco* secad* secar secando asciug* ' +
    'asciutt* droog droge gedroogd afgedroogd drogen',
  wet:
    'wet damp moist soaked nass nasse nassen nasser nasses feucht feuchte feuchten feuchter mouille* humide humides trempe* ' +
    'mojad* humedo* humeda* molhad* umid* humido* humida* bagnat* nat natte vochtig* klam sweaty verschwitzt* schwitzig* sudad* suad* sudat* bezweet*',
  water: 'water wasser eau agua acqua',
  sugary:
    'juice* oj fruit* orange* mandarin* tangerine* satsuma* clementine* apple* grape* kiwi* banana* peach* melon* mango* ' +
    'pineapple* berry berries strawberr* raisin* honey* jam marmalade syrup* sugar* candy candies sweets chocolate* choc ' +
    'cola coke soda lemonade ketchup dextro* glucotab* glucosetab* food crumbs residue icing cake biscuit* cookie* ' +
    'saft *saft obst apfel trauben banane* honig* marmelade* zucker* *zucker sirup schoko* bonbon* limonade ' +
    'jus pomme pommes miel confiture sucre sucres sirop chocolat ' +
    'zumo* jugo* fruta* naranja* manzana* uva uvas platano* mermelada azucar* jarabe caramelo* ' +
    'suco* sumo laranja* maca macas mel geleia acucar* xarope succo spremuta frutta arancia arance mela miele marmellata ' +
    'zuccher* sciroppo caramell* cioccolat* sap *sap sinaasappel* appel* druiven druif honing stroop suiker* *suiker snoep*',
  sticky: 'sticky klebrig* collant* poisseu* pegajos* grudent* appiccic* plakkerig* kleverig*',
  handled:
    'peeled peeling touched touching handled handling spilled spilt geschalt schalen angefasst beruhrt epluch* touche ' +
    'pelado pelando pelar pele tocad* toque descasc* sbucc* toccat* gepeld geschild pellen aangeraakt',
  lotion:
    'lotion* moisturi* sunscreen suncream handcream* handcreme* sonnencreme* sonnenmilch korperlotion bodylotion hautcreme ' +
    'feuchtigkeitscreme locion locao lozione hydratante hidratante idratante zonnebrand* zonnecreme vaseline',
  cream: 'cream creme cremes crema cremas creams eingecremt pommade pomada',
  alcohol: 'alcohol* alkohol* alcool* sanitis* sanitiz* desinf* disinf* antisept* handgel spiritus',
  wipe: 'wipe* wiping swab* pad pads tupfer tuch lingette* toallita* toalhita* lenco salviett* doekje* sanitis* sanitiz*',
  drop: 'drop drops droplet tropfen blutstropfen bluttropfen goutte* gota* goccia gocce druppel*',
  small:
    'small smaller tiny little insufficient hardly barely scarcely kaum nauwelijks klein* winzig* wenig petit* minuscul* peu insuffisan* pequen* poca poco ' +
    'insuficiente* pouco pouca piccol* poco scars* insufficien* weinig onvoldoende',
  enough:
    'enough sufficient genug ausreichend assez suffisa* suficiente bastante sufficiente abbastanza genoeg voldoende',
  blood: 'blood blut sang sangre sangue bloed',
  underfilled: 'underfill* unterfull* ondervuld',
  filled: 'filled fill full voll gefullt rempli* llen* cheia* pien* vol gevuld',
  squeezed:
    'squeez* milked milking gequetscht quetsch* gemolken geknepen uitgeknepen knijp* estruj* espremi* strizzat*',
  pressed:
    'pressed pressing gedruckt gepresst presse pressee serre pince apret* exprim* apert* premut* spremut* schiacciat* gestuwd ' +
    'geperst',
  cold: 'cold freezing frozen icy chilled kalt* eiskalt* froid* gele gelees fria frias frio frios fredd* koud koude ijskoud*',
  hot: 'hot heat overheated heiss* hitze chaud* caliente* calor quente* cald* heet hete hitte',
  meter:
    'meter meters glucometer* monitor gerat* messgerat* lecteur appareil glucometre medidor glucometro aparato aparelho ' +
    'apparecchio misuratore apparaat glucosemeter',
  strip:
    'strip strips teststrip* vial streifen teststreifen bandelette* tira tiras fita fitas striscia strisce teststrook*',
  expired:
    'expired outdated abgelaufen* verfallen perime* caducad* vencid* expirad* scadut* verlopen vervallen verstreken',
  old: 'old alte alten alter vieux vieille* vieja* viejo* velha* velho* vecchi* oude',
  shallow: 'shallow oberflachlich* superficiel* superficial* superficiale ondiep*',
  prick: 'prick* poke puncture* lancet* stich einstich piqure pinchazo picada puntura prik',
  repeat:
    'repeat* retest* recheck* again wiederhol* nochmal* erneut zweitmessung kontrollmessung repet* refait reteste* verifi* ' +
    'nuevo novamente ripet* herhal* opnieuw nogmaals',
  other:
    'other another different second 2nd ander* zweit* autre* deuxieme seconde otro otra segund* outro outra altro altra second* ' +
    'tweede',
  baseline: 'baseline reference referenz ausgangswert temoin referencia riferimento referentie nulmeting',
  eaten:
    'drank drink* drunk ate eat eats eating eaten took taken gave given sipped snack* treated treating getrunken trank gegessen ' +
    'genommen bu mange pris bebi bebio bebeu tome tomei tomado comi comido bevuto mangiat* preso gedronken dronk gegeten genomen',
  /** A drop, a low or a high of these is none of blood on the strip. */
  level:
    'glucose bg bgl bs level levels reading readings blutzucker* bloedsuiker* glycemie glucemia glicemia glykamie',
  fever: 'fever* fieber* fievre febre fiebre febbre koorts body korper* corps cuerpo corpo lichaam*',
  /** Words that add nothing to a note of one word. */
  filler:
    'a an the my his her had to get got needed much lot out was were is are been still left bit slightly very too rather on in at of with and by one both i it ' +
    'trial test tests step first last third noch etwas sehr zu war waren ist die der das den dem ein eine mein meine am an im ' +
    'und mit encore un une le la les mes mon ma etait tres trop au aux du de des et avec el los las mis mi muy y con estaba ' +
    'ainda um uma o os as meu minha meus muito e com no na estava il lo gli i un uno del della sul sulla molto troppo con era ' +
    'nog een het de mijn erg te en met was op hard fest fort fuerte forte stevig',
} as const

/** What a word may mean. */
export type Concept = keyof typeof WORDS

const exact = new Map<string, Set<Concept>>()
const beginnings = new Map<string, Set<Concept>>()
const endings: { ending: string; concept: Concept }[] = []

for (const [concept, words] of Object.entries(WORDS) as [Concept, string][]) {
  for (const word of words.split(' ')) {
    if (word.startsWith('*')) endings.push({ ending: word.slice(1), concept })
    else if (word.endsWith('*')) add(beginnings, word.slice(0, -1), concept)
    else add(exact, word, concept)
  }
}

function add(map: Map<string, Set<Concept>>, word: string, concept: Concept): void {
  const concepts = map.get(word)
  if (concepts) concepts.add(concept)
  else map.set(word, new Set([concept]))
}

const LONGEST_BEGINNING = Math.max(...[...beginnings.keys()].map((word) => word.length))
const NONE: ReadonlySet<Concept> = new Set()

/** All that a word, in lower case and without accents, may mean. */
export function conceptsOf(word: string): ReadonlySet<Concept> {
  const found = new Set<Concept>(exact.get(word))
  for (let length = 2; length <= Math.min(word.length, LONGEST_BEGINNING); length++) {
    for (const concept of beginnings.get(word.slice(0, length)) ?? NONE) found.add(concept)
  }
  for (const { ending, concept } of endings) if (word.endsWith(ending)) found.add(concept)
  // 'Blutzucker' and 'bloedsuiker' are what is measured.
  if (found.has('level')) found.delete('sugary')
  return found
}
