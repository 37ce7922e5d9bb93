import { plain } from './plain'

// Headers and keys that stand for the person whose readings these are.

/** One person among others, whatever stands in the column: a patient, a resident, a record's number. */
const PATIENT =
  /^(patients?|patient (name|id|no|nr|number)|patienten?(name|nummer|nr|id)?|resident( name| id)?|client( name| id)?|bewohner\w*|klient\w*|students?( id| name| no| number)?|pupils?( name)?|child( name| initials)?|children|initials of .*|schuler( in|in|innen)?( name)?|kind(er)?name|eleves?|enfants?|alumn[oa]s?|nino|nina|alunn[oa]|allievo|leerling\w*|elev(er|en)?|barn|oppilas|uczen|zak|tanulo|ogrenci|μαθητησ|ученик|生徒|学生|儿童|pasient\w*|patienter|potilas|pacjent\w*|pacient\w*|paciente|paziente|beteg|hasta( adi| no)?|ασθενησ|пациент|患者(名|番号|id)?|病人|患者姓名|mrn|medical record( no| number)?|record (no|number)|case (no|number)|fall(nummer|nr)|hospital (no|number)|nhs (no|number)|ipp|numero (de )?(patient|dossier)|cpr|personnummer|bsn|nss)$/

/** The same where more than one is named again and again. */
const PERSON =
  /^(person|name|who|bed( no| number)?|room( no| number)?|bett|zimmer|lit|chambre|cama|habitacion|quarto|letto|stanza|kamer|seng|sang|rum|family member|member|user|wer|nom|nombre|nome|naam|navn|namn|nimi|imie|jmeno|nev|isim|ad|ονομα|имя|名前|氏名|姓名)$/

/** Whether a header says that each row is of one patient among others. */
export function saysPatient(header: string): boolean {
  return PATIENT.test(plain(header))
}

/** Who measured, where one is the person: 'self', 'nurse'. */
const MEASURING =
  /^(self|me|myself|patient|nurse|carer|staff|mother|father|mum|mom|dad|parent|spouse|wife|husband|selbst|pflege|schwester|soi|infirmiere?|yo|enfermer[ao]|io|infermier[ae]|zelf|verpleegkundige|selv|sjalv|itse|hoitaja|sam|sama|pielegniarka)$/

/** Whether a cell says who measured, not whose reading it is. */
export function saysWhoMeasured(cell: string): boolean {
  return MEASURING.test(plain(cell))
}

/** Whether a header may stand over the names of persons. */
export function mayNamePersons(header: string): boolean {
  return PERSON.test(plain(header))
}

/** The name in 'Patient: J. Smith'; the text itself where no such key leads it. */
export function withoutPersonKey(text: string): string {
  const [key, ...rest] = text.split(/[:=]/)
  return rest.length > 0 && (saysPatient(key) || mayNamePersons(key)) ? rest.join(':').trim() : text
}
