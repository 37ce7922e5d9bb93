// What the words of headers, kinds and cells speak of: English, German, French, Spanish, Portuguese, Italian, Dutch,
// Danish, Swedish, Norwegian, Finnish, Polish, Czech, Hungarian, Turkish, Greek, Russian, Japanese and Chinese.
// Common words of the trade, from memory. '*' stands for any letters: 'carb*' begins so, '*zucker*' holds it; '_' is a
// blank.

/** What a word may speak of. */
export const LEXICON = {
  glucose: `*glucose* *glukos* vc gluc glu fbs ppbs plbs pdbs rbs ppg fpg bg bgl bgm_value blood_sugar* sugar sugars sugar_level* bsl smbg cbg fsbg cbgl finger_stick* dextro dextros
    fingerstick* finger_prick* fingerprick* finger_test* fsbs rbs fbs ppbs capillary logged_value
    *blutzucker* *glukose* zucker* *zuckerwert* bz blutz
    *glycemi* *glycaemi* *glykami* sucre sucre_sanguin *glucemi* *glicemi* glucosa azucar glicose acucar glucosio zucchero gly glyc
    *bloedsuiker* suiker* *blodsukker* blodsukker* *blodsocker* socker* sukker* *verensoker* *glukoosi* sokeri sokeriarvo*
    *glukoz* cukier cukru *glykemi* cukr *vercukor* *glukoz* cukor* kan_seker* *sekeri* seker glikoz
    *γλυκοζ* *γλυκαιμ* *σακχαρ* ζαχαρο *глюкоз* *глюкем* *гликем* *сахар* *血糖* *グルコース* *葡萄糖* *혈당* *цукор* *цукру* *سكر*
    glic bs vs glikemi* *ブドウ糖*`,
  value: `bm bms val value* amount amounts quantity menge anzahl_wert cantidad quantite quantita reading_value obs_val result* reading readings level levels measurement* measured_value conc concentration wert* *messwert* ergebnis* *wert
    valeur* resultat* mesure* valor* resultado* medicion* medicao medicoes medida* valore* risultat* misura* misurazion*
    waarde* *waarde resultaat meting* *meting vaerdi* maling* varde* *varde matning* verdi* arvo *arvo tulos* mittaus* wartosc* wynik*
    pomiar* hodnota hodnoty vysledek* mereni ertek* *ertek eredmeny* meres* deger* *degeri sonuc* olcum* τιμη τιμες αποτελεσμα*
    μετρηση* значени* результат* показани* измерени* *値* *結果* *数值* *结果* *數值* *測定値*
    messergebnis* lectura leitura uitslag maleverdi* malevaerdi* odczyt* *测量值*`,
  date: `*날짜* *تاريخ* yyyymmdd yyyy_mm_dd ddmmyyyy dd_mm_yyyy mmddyyyy mm_dd_yyyy date dates day days dt *datum* datums tag jour jours dia dias fecha* data datas giorno dag dage dato *dato* *paivam* paivays* *paiva
    pvm dzien dnia den datumu nap kelt tarih* gun ημερομηνια* ημ_νια ημερα* дата даты день *日付* *日にち* *年月日* *月日* *日期* *測定日*`,
  time: `*시간* *وقت* time times tm hhmm hh_mm clock uhrzeit* zeit messzeit tageszeit uhr heure heures hora horas horario hour ora ore orario uur tijd meettijd testtijd tijdstip
    tid klokkeslaet klokkeslett kl klokken klockslag klockan aika kello kellonaika mittausaika klo godzina godz czas cas hodina ido idopont ideje* ora saat saati
    zaman ωρα χρονος время час *時刻* *時間* *时间* *时刻*
    time_of_day horaire mattid uur_van_de_dag`,
  hour: `h hh hr hrs hour hours std stunde stunden heure heures hora horas ora ore uur uren uhr time timer tim timme timmar tunti tunnit godzina godziny godz
    hodina hodiny hod saat saati ωρα ωρες час часы часов ч 時 时 小时 小時`,
  minute: `min mins minute minutes minuten minut minuts minuta minuty minuti minuto minutos minuut minutter minutt minuutti minuutit mm perc dakika dk мин минуты минута
    λεπτα λεπτο λεπτον 分 分钟 分鐘`,
  moment: `dttm dtm timestamp* effective start_time date_of_test datetime date_time *zeitpunkt* *zeitstempel* horodatage* tidspunkt* tidpunkt* ajankohta* tijdstempel* *日時* momento
    instante when wann quand cuando quando logged_at measured_at taken_at recorded_at ts epoch
    marca_de_tiempo misurato_il mesure_le moment_de_la_mesure tidsstempel mattidpunkt mittausajankohta aikaleima czas_pomiaru okamzik* meres_idopontja olcum_zamani
    zaman_damgasi χρονος_μετρησης момент_измерения`,
  unit: `unit units uom symbol *einheit *einheiten unite unites unidad* unidade* unita *eenheid *eenheden enhed enheder *enhed enhet enheter *enhet
    yksikko* *yksikko jednostka jednostki jednotk* *egyseg birim* *birimi μοναδ* единиц* ед_изм *単位* *单位* *單位*
    measuring_unit einh jedn m_e`,
  meal: `meal* mahlzeit* repas comida* refeic* refeicao pasto pasti maaltijd* maltid* ateria* *ateria posilek posilk* jidlo jidl* etkezes*
    ogun* yemek γευμα* еда прием_пищи прием* *食事* *餐* tag_meal meal_tag relation_to_meal food_relation
    essen moment_of_meal momento_de_la_comida momento_da_refeicao momento_del_pasto`,
  note: `note notes comment* remark* bemerk* kommentar* notiz* anmerkung* notat* remarque* observation* observac* nota notas comentario*
    commento commenti annotation* annotazion* osservazion* opmerking* notitie* anteckning* anmarkning* bemaerkning* merknad* huomautus* huomio* muistiinpano* kommentti*
    uwag* notatk* poznamk* komentar* megjegyzes* jegyzet* notlar aciklama* yorum* σημειωσ* σχολι* παρατηρ* примечан* комментар*
    заметк* *備考* *メモ* *备注* *備註* *コメント* memo memos diary details description free_text freetext symptom* circumstance_note remarks_text
    aantekening* noter *注释* *说明*`,
  meter: `meter meters metre monitor device* serial* serie instrument* analyzer analyser gerat* *gerat *messgerat* geratenummer seriennummer* *seriennr appareil* lecteur*
    glucometre* glucometer* *glucosemeter *suikermeter *zuckermeter *sukkermeter dispositivo* medidor* glucometro* aparelho* strumento* misuratore* apparaat* *toestel* serienummer* apparat*
    *maler serienr matare *matare mittari* *mittari laite* sarjanumero* glukometr* urzadzeni* aparat* nr_seryjny numer_seryjny pristroj* seriov* mero *cukormero merokeszulek* keszulek*
    sorozatszam* gyari_szam cihaz* *cihazi seri_no glukometre* συσκευ* μετρητη* σειριακ* прибор* глюкометр* серийн* *測定器* *機器* *シリアル* *装置*
    *仪器* *设备* *序列号* *血糖仪* *血糖値計* sn s_n
    serien_nr apparecchio matricola meternr vyrobni_cislo seri_numarasi *製造番号*`,
  kind: `kind slag esemeny type cd what display source method types entry record category sample sample_type test test_name parameter* analyte* item measure quantity variable component specimen investigation
    observation_type event_type code codes assay exam art *art typ *typ eintrag* kategorie* messgrosse* untersuchung* analyse* probe* genre categorie*
    echantillon parametre* examen* tipo* categoria* prueba* analisis* muestra exame* amostra esame* campione parametro* soort* bepaling* monster analys* provtagning* tyyppi* laji
    tutkimus* rodzaj* badanie* druh* vysetreni* tipus* fajta vizsgalat* tur turu tetkik* ειδος τυπος εξεταση* тип вид показатель* анализ* *種類* *種別*
    *項目* *类型* *類型* *项目*
    clase invoer kategori* handelse haendelse hendelse luokka tapahtuma kategoria zdarzenie parametr udalost tip olay κατηγορια συμβαν категория событие *分類* *种类*
    *类别*`,
  insulin: `ins insulin* *insulin insulina* insuline* inzulin* insuliini* bolus* basal* инсулин* ινσουλιν* *インスリン* *胰岛素* *胰島素* dose doses dosis dosi
    rapid_acting long_acting units_given iu ie bolo bolos болюс* доза дозы davka dawka annos *annos adag doza dozu δοση`,
  carbohydrate: `carb carbs carbohydrate* kohlenhydrat* kh be kes glucid* carbohidrat* hidratos hidrato carboidrat* koolhydra* kulhydrat* kolhydrat* karbohydrat*
    hiilihydra* weglowodan* ww sacharid* szenhidrat* karbonhidrat* υδατανθρακ* углевод* хе *炭水化物* *糖質* *碳水* cho bread_units
    hc weglow`,
  event: `exercise* activity activities sport* bewegung aktivitat* exercice* activite* ejercicio* actividad* exercicio* atividade* esercizi* attivita*
    beweging activiteit* motion liikunta* wysilek pohyb mozgas egzersiz ασκηση нагрузка *運動* *运动* medication* medikament* medicament* medicacion medicacao
    medicinali farmac* medicatie* medicin medisin laakkeet leki leky gyogyszer* ilac* φαρμακ* лекарств* *薬* *药* tablet tablets tabletten pill pills event
    events ereignis* evenement* evento eventos gebeurtenis* metformin* snack* drink* food meal_eaten ate eten`,
  other: `keton* *keton ketone* *ketone* cetone* cetonemi* *cetoni* *ケトン* *酮* cetona cetonas cheton* *cheton* ketolatk* *ketolatk* кетон* κετον* hba1c a1c hb_a1c hgba1c *glycated* *glykiert* glykosyl*
    weight weights *gewicht *gewicht* poids peso vaegt vikt vekt paino waga masa hmotnost *suly kilo agirlik* βαρος вес *体重* body_mass bmi
    *pressure* bp *blutdruck* tension tension_arterielle presion pressao pressione bloeddruk blodtryk* blodtryck* verenpaine* cisnieni* tlak vernyomas* tansiyon*
    πιεση давлени* *血圧* *血压* *血壓* systol* diastol* szisztol* diasztol* sistol* skurczow* rozkurczow* συστολ* διαστολ* систол* диастол* *收缩压* *舒张压* 高压 低压 bovendruk onderdruk ylapaine alapaine sys rr syst diast pulse pulses puls pouls pulso pols syke tetno tep nabiz σφυγμ* пульс *脈拍* *脉搏*
    heart_rate hr bpm herzfrequenz hartslag potassium kalium* potas* kaliem* kaliaem* draslik* калии* καλιο *カリウム* *钾* *鉀* sodium natrium* sodio cholest* *cholest* kolesterol* ldl hdl triglycer* triglyzer* *creatinin* *kreatinin*
    lactate lactat hydroxybutyr* *hydroxybutyr* bhb urea uric* harnsaure hemoglobin* haemoglobin* hamoglobin* oxygen spo2 saturation step_count steps schritte pas pasos passos passi stappen
    skridt steg water wasser agua eau acqua height grosse_cm calories kcal kalorien egfr albumin* crp tsh calcium magnesium chloride phosphate
    tablets_taken glucose_tablet* glucose_tablets traubenzucker dextrose glucose_gel glucose_drink glucose_tab* sleep slept asleep schlafdauer schlafstunden sommeil mood feeling wellbeing stimmung befinden humeur humor animo umore stemming nastroj samopoczucie nalada hangulat kozerzet ruh_hali keyif mieliala olo διαθεση настроение самочувствие *心情* *気分* stress duration dauer duree duracion durata
    duur strips_used lancets battery alarm* iob cob fructosamine microalbumin urine urin* orina urina* harn* virtsa* mocz* moc moci vizelet* idrar* ουρα ουρων моч* *尿*
    wt kropsvaegt kroppsvikt kroppsvekt vaha testtomeg vucut* *масса_тела* frequence_cardiaque frecuencia_cardiaca frequencia_cardiaca frequenza_cardiaca polso
    battiti polsslag hjertefrekvens hjartfrekvens pulssi tepova* pulzus* kalp* καρδιακ* чсс *心拍* *心率* *収縮期* *拡張期* massima minima pad diyastolik нижнее верхнее
    tensao_arterial kan_basinci emoglobina* гликированн* *糖化血红* gefuhl ressenti estado_de_animo disposicao come_mi_sento gevoel velbefindende maende pocit *体調* *感觉*`,
  statistic: `average* avg *average* mean means median mittelwert* *mittelwert* durchschnitt* *durchschnitt* tagesmittel* mittel moyenne* media medias promedio* *gemiddeld*
    gennemsnit* *gennemsnit* genomsnitt* *medel medelvarde* *gjennomsnitt* *keskiarvo* *srednia* srednie *prumer* *atlag* *ortalama* μεσος μεση μεσο μ_ο *средн* *平均* moy gns prom ka atl snitt middelvaerdi middelverdi sd std
    stdev standard_deviation standardabweichung* cv maximum minimum lowest highest total totals totaal totalt totale toplam sum suma summa summe somme soma somma som i_alt gesamt razem celkem soucet osszesen osszeg yhteensa
    συνολο αθροισμα итого всего *合計* *合计* *总计* count max_value min_value delta change
    difference trend rate_of_change variability spread
    day_mean gem mw durchschn* mittelw gjsn medelv sred stdabw
    maximo* minimo* deviazione* desviacion* desvio_padrao ecart_type standaardafwijking standardafvigelse standardavvik* keskihajonta odchylenie* smerodatna* szoras standart_sapma τυπικη_αποκλιση *стандартн* *標準偏差* *标准差* massimo* hochst* niedrigst* maximal* minimal* hoogst* laagst* hogst* lagst* hojest* lavest* korkein* matalin* najwyzsz* najnizsz* nejvyssi* nejnizsi* legmagasabb*
    legalacsonyabb* *最高* *最低* previous* prior vorherig* letzter_wert precedent* anterior* precedente vorige forrige foregaende edellinen poprzedni* predchozi elozo onceki* προηγουμ* предыдущ* *前回* *上次*`,
  goal: `target* goal* *ziel* ziel* zielbereich* objectif* objetivo* obiettiv* doel* *doel mal malomrade malvarde malverdi malvaerdi tavoite* *tavoite cel cil cilov* celertek* meta metas streef* richtwert* hedef* στοχο* цел* *目標* *目标* limit limits
    upper_limit lower_limit reference* ref ref_range *referenz* *referens* normal normals norm norma normalbereich* range reference_range grenzwert* alarm_limit high_limit
    low_limit
    glukosmal`,
  status: `status state deleted delete void voided valid invalid cancelled canceled excluded geloscht storniert gultig ungultig statut etat supprime annule estado
    anulado eliminado cancelado stato annullato cancellato verwijderd slettet raderad slettede poistettu usuniet* smazan* torolt* silindi κατασταση διαγρ* статус
    удален* *状態* *状态* *削除* *删除* active is_active record_status durum* tila tilanne stan stav allapot* situacao situacion situazione tilstand состояние`,
  administrative: `birth* dob *geburt* naissance nacimiento nascimento nascita *geboorte* fodsel* fodelse* syntyma* urodz* narozen* szulet* dogum γεννησ* рожден*
    *生年月日* *出生* order* ordered requested request angefordert beauftragt auftrag* prescribed demande printed print gedruckt imprime* impreso* exported export*
    exporte* upload* uploaded hochgeladen synced sync synchron* import imported *import created creation erstellt angelegt received receipt eingang* eingegangen
    recu recibid* modified updated geandert last_change entered entry_date entry_time registered registration reported report validated validation
    nahran* przeslan* eksport* feltolt* yukle* disa_aktar* μεταφορτ* εξαγωγ* загруж* загруз* экспорт* *アップロード* *出力日* *上传* *上傳* *导出* *導出* download* ubertragen geupload*
    uppladd* overfor* lastet_opp ladattu siirretty vienti* fecha_de_carga subido enviado envio caricat* caricament* esportazion* esportat* stampat* wydrukow* utworzon* vytisten* vytvoren*
    nyomtat* keszult yazdir* olusturul* εκτυπ* δημιουργ* напечат* создан* *印刷* *作成* *打印* *生成* afgedrukt gemaakt udskrev* oprettet utskriv* skapad skrevet_ut opprettet
    tulostet* luotu cree creado criado creato
    resulted freigabe expiry expires verfall* lot_date visit next_visit termin appointment server db inserted saved delivered dispatch* approved signed
    born geb geboren ne_e_le ne_le nacido nascido nato fodt fodd syntynyt γεννηθ* родился родилась *誕生日* *生日* televerse_le transfere_le ausdruck impresso`,
  measured: `measured measurement* test_date test_time tested taken collected collection sampling sample_date sample_time drawn draw gemessen *mess* messung messzeit* mesure* mesuree
    medicion* medido medicao* medida misura* gemeten meet* *meting* male* *maling* matt *matning* mittau* pomiar* meren* meres* olcum* μετρησ* измерен* *測定* *测量*
    *測量* *採血* entnahme* abnahme* prelevement* extraccion coleta prelievo afname provetag* performed reading_time recorded recorded_at observation_time event_time`,
  sensor: `sensor* *sensor cgm *patch patch* fgm isf interstitial interstiti* interstitiell* scan* continuous historic historical background automatic auto capteur* gewebe* flash sensore sensori`,
  manual: `manual manuell manuel manuelle handmatig manually`,
  control: `control controls kontroll* controle controllo qc control_solution control_test quality_control`,
  partOfDay: `for fore etter efter morning* noon midday afternoon evening* night nights nighttime overnight bedtime fasting breakfast* lunch* dinner* supper* waking wake_up reveil lever despertar risveglio opstaan aufstehen aufwachen
    morgen morgens fruh *fruhstuck* mittag* *mittag *mittags nachmittag* abend* *abendessen* nacht nachts nuchtern* spat schlafen* schlafengehen schlafenszeit bettgehen matin midi soir nuit a_jeun jeun
    dejeuner diner coucher manana mediodia tarde noche madrugada desayuno acostarse almuerzo merienda cena ayunas manha noite deitar almoco jantar jejum mattina mattino pranzo
    pomeriggio sera notte colazione digiuno dormire ochtend* middag* avond* ontbijt* nuchter formiddag eftermiddag aften* kveld* kvall* natt* nat natten morgon* frokost* lunsj* middagsmad
    aftensmad frukost* fastende sengetid leggetid bedtijd laggdags aamu* ilta* yo aamiais* aamiai* lounas* lounaa* paivalli* paasto nukkumaan rano poludni* wieczor* noc sniadani* obiad* kolacj* na_czczo
    czczo nalacno snem poledne odpoledne vecer* snidan* obed* lacno spanim reggel* delben delutan este ejjel ebed* vacsora* ehgyomor* lefekves* sabah* oglen* ogle aksam* gece kahvalti* aclik tokluk yatmadan
    πρωι* μεσημερ* *μεσημερ* *βραδιν* απογευμα* βραδυ* νυχτα* πρωιν* νηστει* υπν* утро утром дня днем вечер* ночь* ночью завтрак* обед* ужин* натощак сном *朝* *昼* *夕* *夜* *晚* *早* *午* *空腹* *食前* *食後*
    *餐前* *餐后* *餐後* *就寝* *睡前* before after pre post vor nach vorher nachher avant apres antes despues prima dopo voor depois premeal postmeal preprandial* postprandial*
    praprandial* for_maten efter_maten ennen jalkeen przed po pred elott elotte utan utana once oncesi sonra sonrasi πριν μετα до после перед
    fastande nocy noci ehgyomri ejszaka yatarken morgenmad nukkumaanmeno meio_dia mezzogiorno mitt_pa_dagen midt_pa_dagen dagen keskipaiva полдень`,
  running: `batch lot lots lote charge chargennummer partie lotto partij no nr number id index row row_no lfd lfd_nr lfdnr num numero numer numero_de_ordem rec record_no record_id idx seq sequence *番号* *序号* *编号* cislo sorszam sira
    α_α номер key pk uuid guid ref_no laufnummer lopenr lopnr jarjestysnro line`,
} as const

export type Concept = keyof typeof LEXICON
