#pragma once
// The words `who_rides` knows, lower case and without accents; `*` stands for any letters. Lists of words, no grammar;
// common practice, no source.

#include <initializer_list>

namespace lobewise::demand::people_words {

using Words = std::initializer_list<const char*>;

/// These alone say that people ride.
inline constexpr Words kPeople{
    // English
    "man riding", "men riding", "manriding*", "man rider*", "manlift*", "man lift*", "man hoist*", "man winch*",
    "man winder*", "men and material*", "man and material*", "personnel carrier*", "passenger conveyor*",
    "people conveyor*", "people mover*", "moving walk*", "moving pavement*", "moving sidewalk*", "travolator*",
    "travelator*", "escalator*", "moving stair*", "chair lift*", "chairlift*", "ski lift*", "skilift*", "ski tow*",
    "t bar lift*", "drag lift*", "cable car", "cable cars", "cablecar*", "cableway*", "gondola lift*",
    "aerial tramway*", "funicular*", "stair lift*", "stairlift*", "wheelchair lift*", "wheelchair platform*",
    "patient lift*", "patient hoist*", "bath lift*", "cherry picker*", "aerial work*", "aerial platform*",
    "access platform*", "work platform*", "working platform*", "boom lift*", "mast climb*", "suspended platform*",
    "suspended cradle*", "facade cradle*", "bosun* chair*", "boatswain*", "roller coaster*", "rollercoaster*",
    "amusement ride*", "fairground*", "ferris wheel*", "observation wheel*", "zip line*", "zipline*",
    // German; the same words serve Dutch where they are equal
    "personen*aufzug*", "personen*lift*", "personen*forder*", "personen*winde*", "personen*hub*", "personen*heb*",
    "personen*korb*", "personen*beforder*", "personen*fahr*", "personen*seilbahn*", "personen*bahn*",
    "personen*transport*", "fahrgast*", "mannfahrt*", "mannschaftsfahrt*", "mannwinde*", "mannkorb*", "seilfahrt*",
    "bettenaufzug*", "fahrstuhl*", "rolltreppe*", "fahrtreppe*", "rollsteig*", "fahrsteig*", "sessellift*",
    "sesselbahn*", "schlepplift*", "seilbahn*", "luftseilbahn*", "standseilbahn*", "schwebebahn*", "gondelbahn*",
    "kabinenbahn*", "treppenlift*", "plattformlift*", "rollstuhllift*", "patientenlift*", "patientenheb*",
    "hubarbeitsbuhne*", "arbeitsbuhne*", "hubsteiger*", "arbeitskorb*", "fassadenlift*", "befahranlage*", "riesenrad*",
    "achterbahn*", "fahrgeschaft*",
    // French
    "monte personne*", "montepersonne*", "escalier* mecanique*", "escalier* roulant*", "trottoir* roulant*",
    "telesiege*", "teleski*", "telepherique*", "telecabine*", "remonte pente*", "remontee* mecanique*", "funiculaire*",
    "monte escalier*", "nacelle elevatrice", "nacelles elevatrices", "grande roue",
    // Spanish
    "montapersona*", "escalera* mecanica*", "telesilla*", "telesqui*", "teleferico*", "telecabina*",
    "pasillo* rodante*", "salvaescalera*", "plataforma* elevadora* de persona*",
    // Italian
    "montapersone", "scala mobile", "scale mobili", "seggiovia*", "funivia*", "sciovia*", "cabinovia*", "funicolare*",
    "montascale", "servoscala", "piattaform* aere*", "ruota panoramica",
    // Dutch
    "personen*vervoer*", "personen*bak*", "roltrap*", "rolpad*", "stoeltjeslift*", "traplift*", "hoogwerker*",
    "kabelbaan*", "werkbak*", "reuzenrad*",
    // Polish
    "schod* ruchom*", "ruchom* schod*", "chodnik* ruchom*", "wyciag* krzeselkow*", "wyciag* narciarsk*",
    "kolej* linow*", "podnosnik* koszow*", "jazd* ludzi", "przewoz* ludzi", "przewoz* osob",
    // Portuguese
    "montapessoa*", "monta pessoa*", "escada* rolante*", "telecadeira*", "bondinho*", "cesto* aereo*",
    // Swedish, Danish, Norwegian
    "person*hiss*", "person*lyft*", "person*korg*", "person*elevator*", "person*heis*", "rulltrapp*", "rulletrapp*",
    "rullramp*", "stollift*", "sittlift*", "stolelift*", "skidlift*", "skiheis*", "stolheis*", "slaplift*", "linban*",
    "trapphiss*", "trapplift*", "trappelift*", "trappeheis*",
    // Czech, Slovak
    "osobn* vytah*", "eskalator*", "pohybliv* schod*", "lanovk*", "lanov* drah*", "lyzarsk* vlek*", "sedackov*",
    "schodistov* plosin*", "pracovn* plosin*", "jizd* muzstva", "preprav* osob", "doprav* osob",
    // Hungarian, Romanian, Finnish, Turkish
    "szemelylift*", "szemelyfelvono*", "mozgolepcso*", "sifelvono*", "libego*", "scar* rulant*", "telescaun*",
    "telegondol*", "henkilohissi*", "liukuporta*", "rullaporta*", "hiihtohissi*", "tuolihissi*", "yuruyen merdiven*",
    "teleferik*", "yuruyen yol*"};

/// Somebody; people ride where one of these stands near a word of `kCarries`.
inline constexpr Words kPersons{
    "person",      "persons",    "people",   "passenger*",  "personnel",   "men",       "miner",        "miners",
    "crew",        "worker",     "workers",  "staff",       "visitor",     "visitors",  "patient",      "patients",
    "wheelchair*", "guests",     "personen", "mannschaft*", "fahrgaste",   "besucher*", "mitarbeiter*", "personne",
    "personnes",   "passager*",  "ouvriers", "persona",     "personas",    "pasajero*", "mineros",      "obreros",
    "persone",     "passegger*", "operai",   "passagier*",  "osobow*",     "osob",      "osoby",        "ludzi",
    "pasazer*",    "pessoa",     "pessoas",  "passageiro*", "passagerare", "personer",  "arbetare",     "osobni",
    "osobniho",    "osobny",     "osobn",    "cestujic*",   "muzstv*",     "szemely*",  "persoan*",     "henkilo*",
    "insan*",      "yolcu*"};

/// … unless it stands beside one of these: people who look after the drive, or goods named after people.
inline constexpr Words kNotAboard{
    "contact",   "responsible", "charge",       "trained",    "qualified", "authorised", "authorized", "competent",
    "skilled",   "instructed",  "maintenance",  "only",       "terminal*", "ferry",      "ship*",      "car",
    "cars",      "tyre*",       "tire*",        "vehicle*",   "door*",     "protection", "zustandig*", "fach*",
    "befugt*",   "geschult*",   "unterwiesen*", "qualifi*",   "autoris*",  "habilit*",   "autoriz*",   "cualific*",
    "capacit*",  "autorizz*",   "addestr*",     "incaricat*", "bevoegd*",  "gekwalif*",  "upowazn*",   "uprawn*",
    "wykwalif*", "przeszkol*",  "behorig*",     "utbild*",    "opravnen*", "povolan*",   "skolen*"};

/// What lifts or carries.
inline constexpr Words kCarries{
    "lift",       "lifts",        "lifting",      "lifted",      "elevator*",    "hoist*",       "winch*",
    "winder*",    "cage*",        "basket*",      "gondola*",    "cabin*",       "skip",         "platform*",
    "ride",       "rides",        "riding",       "rider*",      "carry",        "carries",      "carrying",
    "carried",    "transport*",   "ropeway*",     "aufzug*",     "winde",        "winden",       "seilwinde*",
    "hubwerk*",   "forderkorb*",  "korb",         "buhne*",      "beforder*",    "heben",        "hebebuhne*",
    "ascenseur*", "treuil*",      "monte",        "nacelle*",    "levage",       "elevateur*",   "palan*",
    "ascensor*",  "elevador*",    "elevacion",    "montacarga*", "cabrestante*", "plataforma*",  "polipasto*",
    "elevator*",  "montacarich*", "sollevamento", "argano",      "verricello",   "piattaforma*", "paranco",
    "trasport*",  "lier",         "takel*",       "hijs*",       "vervoer*",     "winda",        "windy",
    "wyciag*",    "wciagark*",    "dzwig*",       "kolejk*",     "przewoz*",     "podnos*",      "guincho*",
    "elevacao",   "talha",        "hiss*",        "lyft*",       "korg*",        "vinsch*",      "heis*",
    "vytah*",     "navijak*",     "vratek",       "zdvih*",      "plosin*",      "doprav*",      "preprav*",
    "felvono*",   "emelo*",       "szallit*",     "asansor*",    "vinc*",        "tasima",       "nosto*",
    "kuljet*"};

/// A lift of which the word does not say what it carries.
inline constexpr Words kLift{"lift",       "lifts",         "elevator",     "elevators", "paternoster*", "aufzug",
                             "aufzuge",    "schragaufzug*", "scherenlift*", "liften",    "ascenseur*",   "ascensor",
                             "ascensores", "elevador",      "elevadores",   "ascensore", "ascensori",    "elevatore",
                             "elevatori",  "winda",         "windy",        "hiss",      "hissar",       "hissen",
                             "heis",       "heiser",        "heisen",       "vytah*",    "felvono*",     "asansor*",
                             "hissi",      "dizalo*",       "liftul"};

/// A lift of goods.
inline constexpr Words kLiftsGoods{
    "goods lift*",      "goods hoist*",        "freight lift*", "freight elevator*", "material* lift*",
    "material* hoist*", "dumbwaiter*",         "dumb waiter*",  "car lift*",         "vehicle lift*",
    "boat lift*",       "ship lift*",          "pallet lift*",  "pallet elevator*",  "lift* table*",
    "lastenaufzug*",    "lastaufzug*",         "guteraufzug*",  "warenaufzug*",      "bauaufzug*",
    "hebebuhne*",       "hubtisch*",           "monte charge*", "montecharge*",      "ascenseur* de charge*",
    "montacarga*",      "elevador* de carga*", "montacarich*",  "goederenlift*",     "vrachtlift*",
    "varuhiss*",        "godshiss*",           "vareelevator*", "vareheis*",         "nakladn* vytah*",
    "dzwig* towarow*",  "wind* towarow*",      "teherfelvono*", "teherlift*",        "tavarahissi*",
    "yuk asansor*"};

/// A thing that lifts, whatever hangs on it.
inline constexpr Words kHoists{
    "hoist*",   "winch*",    "winde",  "winden",       "seilwinde*", "hubwerk*", "crane*",     "kran",    "krane",
    "kranhub*", "treuil*",   "palan*", "cabrestante*", "polipasto*", "argano",   "verricello", "paranco", "lier",
    "takel*",   "wciagark*", "dzwig*", "guincho*",     "talha",      "vinsch*",  "navijak*",   "vratek",  "nosturi*"};

/// These in the same words say that a lift carries goods.
inline constexpr Words kGoods{
    "goods",       "freight", "cargo",      "pallet*",  "palette*", "palett*", "material",     "materials", "lasten",
    "guter",       "waren",   "charges",    "carga",    "cargas",   "carichi", "goederen",     "vracht",    "towarow*",
    "towar*",      "gods",    "varor",      "nakladn*", "teher*",   "tavara*", "marchandise*", "mercanc*",  "merci",
    "mercadoria*", "bale*",   "container*", "crate*",   "vehicle*", "truck*",  "boat*",        "ship*"};

/// Words that make a conveyor of an elevator, in whichever text they stand.
inline constexpr Words kBuckets{"bucket*", "becher*",   "godet*",  "cangilon*", "tazze",    "tazza",  "emmer*",
                                "kubelk*", "kubelkow*", "caneca*", "skop*",     "korec*",   "korck*", "serleg*",
                                "kauha*",  "kovali",    "noria*",  "schaufel*", "chapelet*"};

/// A word of `kLift` behind one of these, or at most one word between them, raises material.
inline constexpr Words kBeforeLift{
    "grain*",   "getreide*", "cereal*", "zboz*",  "obil*",  "spannmal*", "screw*",  "schneck*", "auger*",  "pump*",
    "air",      "vacuum",    "magnet*", "belt*",  "chain*", "cullet",    "glass",   "sand",     "gravel",  "coal",
    "ash",      "clinker",   "cement*", "ore",    "chip*",  "log",       "logs",    "seed*",    "flour",   "sugar",
    "fertili*", "salt",      "waste",   "sludge", "fork",   "conveyor*", "feeder*", "product*", "bottle*", "box",
    "boxes",    "tyre*",     "drum*",   "coil*",  "scrap",  "straw",     "bale*",   "beet*",    "potato*", "wood*"};
/// … or in front of one of these.
inline constexpr Words kAfterLift{
    "station*",  "pump*",     "screw*", "arm",     "arms",   "axle*", "beam*",    "bridge*", "chain*", "conveyor*",
    "cylinder*", "fan*",      "gate*",  "head",    "height", "off",   "roller*",  "tank*",   "truck*", "well*",
    "belt*",     "elevation", "of",     "magnet*", "valve*", "gear*", "section*", "boot*",   "leg",    "legs"};

/// In front: what follows is denied.
inline constexpr Words kNo{"no",   "not",  "never",  "without", "nicht", "nie",   "keine", "kein", "keinen", "ohne",
                           "sans", "pas",  "aucune", "non",     "senza", "sin",   "nunca", "geen", "zonder", "niet",
                           "bez",  "sem",  "nao",    "nunca",   "ej",    "inte",  "utan",  "inga", "ikke",   "ingen",
                           "uden", "uten", "nem",    "fara",    "ei",    "ilman", "degil"};
/// Behind: what stands before is denied.
inline constexpr Words kForbidden{"forbidden",       "prohibited",    "verboten*",   "untersagt",     "interdit*",
                                  "vietat*",         "prohibid*",     "verboden",    "zabron*",       "zakazan*",
                                  "proibid*",        "forbjud*",      "forbudt",     "tilos",         "interzis*",
                                  "kielletty",       "yasak*",        "not allowed", "not permitted", "nicht erlaubt",
                                  "nicht gestattet", "nicht zulassig"};

/// Units behind the height of a lift.
inline constexpr Words kLength{"m", "mm", "cm", "ft", "in", "metres", "meters", "metre", "meter", "mtr"};

}  // namespace lobewise::demand::people_words
