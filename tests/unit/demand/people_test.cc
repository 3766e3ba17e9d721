// Words that say that people ride, in the languages of the plants, and words that must not be mistaken for them.
#include "engine/demand/people.h"

#include <gtest/gtest.h>

namespace lobewise::demand {
namespace {

Aboard of(std::initializer_list<std::string_view> texts) { return who_rides(texts).aboard; }

TEST(People, RefusedInEveryLanguage) {
  for (const std::string_view text : {"Passenger lift 2",
                                      "Man-riding winch",
                                      "MANRIDING BELT",
                                      "Personnel hoist, shaft 1",
                                      "Chairlift",
                                      "Escalator north",
                                      "Lift for visitors",
                                      "Winch, carries miners",
                                      "Hoist (men and materials)",
                                      "Elevator - passengers",
                                      "Personenaufzug",
                                      "PERSONENAUFZÜGE",
                                      "Personenförderung Schacht 2",
                                      "Personenfoerderung",
                                      "Rolltreppe",
                                      "Hubarbeitsbühne",
                                      "Sessellift",
                                      "Fahrstuhl Halle 2",
                                      "Aufzug für Personen",
                                      "Seilfahrt",
                                      "Monte-personnes",
                                      "Treuil à personnel",
                                      "Ascenseur, 8 personnes",
                                      "Escalier mécanique",
                                      "Télésiège",
                                      "Ascensor de pasajeros",
                                      "Elevador de personas",
                                      "Escalera mecánica",
                                      "Telesilla",
                                      "Ascensore persone",
                                      "Montacarichi persone",
                                      "Sollevamento persone",
                                      "Scala mobile",
                                      "Seggiovia",
                                      "Personenlift",
                                      "Roltrap",
                                      "Hoogwerker",
                                      "Lier voor personen",
                                      "Dźwig osobowy",
                                      "Winda osobowa",
                                      "Schody ruchome",
                                      "Wyciąg krzesełkowy",
                                      "Przewóz ludzi",
                                      "Elevador de passageiros",
                                      "Escada rolante",
                                      "Elevador de pessoas",
                                      "Personhiss",
                                      "Rulltrappa",
                                      "Hiss för personer",
                                      "Personelevator",
                                      "Rulletrapp",
                                      "Osobní výtah",
                                      "OSOBNÍ VÝTAH",
                                      "Eskalátor",
                                      "Lanovka",
                                      "Jízda mužstva",
                                      "Mozgólépcső",
                                      "Személylift",
                                      "Henkilöhissi",
                                      "Yürüyen merdiven",
                                      "Scară rulantă"})
    EXPECT_EQ(of({text}), Aboard::people) << text;
}

TEST(People, ALiftOfWhichNobodySaysWhatItCarries) {
  for (const std::string_view text :
       {"Lift 3", "Elevator, building C", "Aufzug 1", "Ascenseur", "Ascensore", "Elevador 2", "Winda", "Hiss",
        "Výtah č. 4", "Lift no. 3", "Scissor lift", "Stage lift"})
    EXPECT_EQ(of({text}), Aboard::unclear) << text;
  EXPECT_EQ(of({"Lift 3", "hoist"}), Aboard::unclear) << "a hoist may carry anything";
}

TEST(People, GoodsAreALiftingJob) {
  for (const std::string_view text :
       {"Goods lift 1 t", "Lastenaufzug", "Güteraufzug", "Monte-charge", "Montacargas", "Montacarichi", "Goederenlift",
        "Nákladní výtah", "Varuhiss", "Dźwig towarowy", "Skip hoist", "Winch of the boom", "Lift for pallets",
        "Hoist, goods only, no persons", "Winch; not for lifting people", "Winde, Personenbeförderung verboten",
        "Scissor lift table", "Hoist, trained personnel only", "Hoist: contact person workshop"})
    EXPECT_EQ(of({text}), Aboard::goods) << text;
  EXPECT_EQ(of({"Lift 3", "Lastenaufzug"}), Aboard::goods);
}

TEST(People, NoFalseAlarm) {
  for (const std::string_view text : {"Bucket elevator",
                                      "Becherwerk 2",
                                      "Bucket elevator E-302, lift 14 m",
                                      "Screw lift station",
                                      "Lift station pump 2",
                                      "Inclined cullet conveyor, lift 6 m",
                                      "Conveyor lift: 4.2 m",
                                      "lift 12m",
                                      "Grain elevator leg",
                                      "Cullet elevator",
                                      "Élévateur à godets",
                                      "Elevador de cangilones",
                                      "Elevatore a tazze",
                                      "Elevador de canecas",
                                      "Skopelevator",
                                      "Korečkový elevátor",
                                      "Emmerelevator",
                                      "Schneckenheber",
                                      "Air lift blower",
                                      "Lift gate drive",
                                      "Fork lift charger",
                                      "Baggage conveyor, passenger terminal 2",
                                      "Passenger car shredder",
                                      "Personnel door",
                                      "Trommel screen",
                                      "people complain about its noise",
                                      "Mannheim plant, belt 3",
                                      "Salesman route",
                                      "Hub of the mixer",
                                      "Personal protection near the belt",
                                      "Rollgang",
                                      "Tapis roulant n° 2",
                                      "Lifter magnet off"})
    EXPECT_EQ(of({text}), Aboard::nobody) << text << ": " << who_rides({text}).words;
  EXPECT_EQ(of({"Elevator 3", "bucket elevator"}), Aboard::nobody);
  EXPECT_EQ(of({}), Aboard::nobody);
  EXPECT_EQ(of({"", "…", "№ 5"}), Aboard::nobody);
}

TEST(People, RefusalNamesTheWordsAsTheyWereWritten) {
  const auto refused = people_refused(who_rides({"Drive of the Man-Riding winch"}), "title");
  ASSERT_TRUE(refused);
  EXPECT_EQ(refused->path, "title");
  EXPECT_EQ(refused->offending, "Man-Riding");
  EXPECT_NE(refused->message.find("refused"), std::string::npos);
  const auto asked = people_refused(who_rides({"Výtah 2"}), "title");
  ASSERT_TRUE(asked);
  EXPECT_EQ(asked->offending, "Výtah");
  EXPECT_NE(asked->message.find("goods lift"), std::string::npos);
  EXPECT_FALSE(people_refused(who_rides({"Goods lift"}), "title"));
}

}  // namespace
}  // namespace lobewise::demand
