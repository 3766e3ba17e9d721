#include "engine/range/describe_range.h"

namespace lobewise::model {

template <>
const std::vector<Choice>& choices_of<range::Carried>() {
  static const std::vector<Choice> choices{
      {"fixed", "held fast"}, {"sleeve", "turning on a plain pin"}, {"needle", "turning on needle rollers"}};
  return choices;
}

template <>
const std::vector<Choice>& choices_of<range::BearingKind>() {
  static const std::vector<Choice> choices{
      {"cylindrical", "cylindrical roller"}, {"full_complement", "full complement roller"},
      {"needle", "needle roller"},           {"deep_groove", "deep groove ball"},
      {"tapered", "tapered roller"},         {"angular_ball", "angular contact ball"}};
  return choices;
}

template <>
const std::vector<Choice>& choices_of<strength::Arrangement>() {
  static const std::vector<Choice> choices{{"back_to_back", "back to back (O)"}, {"face_to_face", "face to face (X)"}};
  return choices;
}

template <>
const std::vector<Choice>& choices_of<range::LubricantKind>() {
  static const std::vector<Choice> choices{{"oil", "oil"}, {"grease", "grease"}};
  return choices;
}

template <>
const std::vector<Choice>& choices_of<range::BaseOil>() {
  static const std::vector<Choice> choices{
      {"mineral", "mineral"}, {"pao", "synthetic (PAO)"}, {"pag", "synthetic (PAG)"}};
  return choices;
}

template <>
const std::vector<Choice>& choices_of<range::Material>() {
  static const std::vector<Choice> choices{
      {"steel", "steel"}, {"ductile_iron", "ductile iron"}, {"grey_iron", "grey iron"}, {"aluminium", "aluminium"}};
  return choices;
}

template <>
const std::vector<Choice>& choices_of<range::UprightLubrication>() {
  static const std::vector<Choice> choices{{"grease", "upper bearings packed with grease"},
                                           {"pump", "a pump feeds the upper bearings"},
                                           {"flooded", "filled with oil to the top"}};
  return choices;
}

template <>
const std::vector<Choice>& choices_of<strength::BoltClass>() {
  static const std::vector<Choice> choices{{"8.8", "8.8"}, {"10.9", "10.9"}, {"12.9", "12.9"}};
  return choices;
}

template <>
const RecordType& describe<mechanism::StageGeometry>() {
  static const RecordType type{
      "stage_geometry",
      "Stage geometry",
      "Lobes, rollers, eccentric, discs and output pins of one stage",
      {
          field<&mechanism::StageGeometry::lobes>("lobes", "Lobes", "On each disc; the ring has one roller more",
                                                  Quantity::number, {2, 200}),
          field<&mechanism::StageGeometry::pitch_radius>(
              "pitch_radius", "Ring pitch radius", "Circle of the ring roller centres", Quantity::length, {1e-3, 2}),
          field<&mechanism::StageGeometry::roller_radius>("roller_radius", "Ring roller radius", "", Quantity::length,
                                                          {1e-4, 0.2}),
          field<&mechanism::StageGeometry::eccentricity>("eccentricity", "Eccentricity", "", Quantity::length,
                                                         {1e-5, 0.1}),
          field<&mechanism::StageGeometry::width>("width", "Disc width", "Effective contact length of one disc",
                                                  Quantity::length, {1e-4, 0.5}),
          field<&mechanism::StageGeometry::discs>("discs", "Discs", "Evenly spread round the eccentric",
                                                  Quantity::number, {1, 4})
              .with_default(),
          field<&mechanism::StageGeometry::pins>("pins", "Output pins", "", Quantity::number, {3, 60}),
          field<&mechanism::StageGeometry::pin_circle_radius>("pin_circle_radius", "Output pin circle radius", "",
                                                              Quantity::length, {1e-3, 2}),
          field<&mechanism::StageGeometry::pin_radius>("pin_radius", "Output roller radius",
                                                       "Outside of the sleeve, or of the pin when there is none",
                                                       Quantity::length, {1e-4, 0.2}),
          field<&mechanism::StageGeometry::hole_clearance>("hole_clearance", "Hole clearance",
                                                           "Radial, beyond output roller and eccentricity",
                                                           Quantity::length, {0, 1e-3})
              .with_default(),
          field<&mechanism::StageGeometry::roller_offset>("roller_offset", "Profile offset by roller",
                                                          "The profile is cut with a roller radius larger by this",
                                                          Quantity::length, {-1e-3, 1e-3})
              .with_default(),
          field<&mechanism::StageGeometry::radius_offset>("radius_offset", "Profile offset by pitch radius",
                                                          "The profile is cut with a pitch radius larger by this",
                                                          Quantity::length, {-1e-3, 1e-3})
              .with_default(),
          field<&mechanism::StageGeometry::flank_relief>(
              "flank_relief", "Flank relief", "Angle by which each flank is turned back", Quantity::angle, {0, 0.1})
              .with_default(),
      }};
  return type;
}

template <>
const RecordType& describe<range::Bearing>() {
  static const RecordType type{
      "bearing",
      "Bearing",
      "A rolling bearing; capacities stated, or computed from the rolling elements",
      {
          field<&range::Bearing::kind>("kind", "Kind", ""),
          field<&range::Bearing::elements>("elements", "Rolling elements", "In a row", Quantity::number, {0, 200})
              .with_default(),
          field<&range::Bearing::element_diameter>("element_diameter", "Element diameter", "", Quantity::length,
                                                   {0, 0.2})
              .with_default(),
          field<&range::Bearing::element_length>("element_length", "Roller length", "Effective, chamfers off",
                                                 Quantity::length, {0, 0.5})
              .with_default(),
          field<&range::Bearing::pitch_diameter>("pitch_diameter", "Pitch diameter", "Of the rolling elements",
                                                 Quantity::length, {1e-3, 2}),
          field<&range::Bearing::bore>("bore", "Bore", "", Quantity::length, {0, 2}).with_default(),
          field<&range::Bearing::outside>("outside", "Outside diameter", "", Quantity::length, {0, 2}).with_default(),
          field<&range::Bearing::width>("width", "Width", "", Quantity::length, {0, 1}).with_default(),
          field<&range::Bearing::dynamic_capacity>("dynamic_capacity", "Basic dynamic capacity", "C of ISO 281",
                                                   Quantity::force, {1, 1e8}),
          field<&range::Bearing::static_capacity>("static_capacity", "Basic static capacity", "C0 of ISO 76",
                                                  Quantity::force, {1, 1e8}),
          field<&range::Bearing::axial_e>("axial_e", "Limit e", "F_a / F_r from which the axial load counts (ISO 281)",
                                          Quantity::number, {0, 5}),
          field<&range::Bearing::axial_Y>("axial_Y", "Axial factor Y", "ISO 281, for F_a / F_r above e",
                                          Quantity::number, {0, 10}),
      }};
  return type;
}

template <>
const RecordType& describe<tolerance::Manufacture>() {
  static const RecordType type{
      "manufacture",
      "Manufacture",
      "Whole widths of tolerance zones about the nominal; what is left out follows from the grade",
      {
          field<&tolerance::Manufacture::grade>("grade", "Grade", "Of ISO 286-1", Quantity::number, {5, 8}),
          field<&tolerance::Manufacture::capability>("capability", "Process capability",
                                                     "C_p, zone over six standard deviations; 1 when left out",
                                                     Quantity::number, {0.3, 5}),
          field<&tolerance::Manufacture::pitch_radius>(
              "pitch_radius", "Pitch radius", "Circle of the ring rollers of one unit", Quantity::length, {0, 1e-3}),
          field<&tolerance::Manufacture::roller_position>("roller_position", "Place of a ring roller",
                                                          "Of each centre, radial and tangential", Quantity::length,
                                                          {0, 1e-3}),
          field<&tolerance::Manufacture::roller_radius_batch>("roller_radius_batch", "Roller radius, all",
                                                              "Of the ring rollers of one unit together",
                                                              Quantity::length, {0, 1e-3}),
          field<&tolerance::Manufacture::roller_radius>("roller_radius", "Roller radius, each", "Within one unit",
                                                        Quantity::length, {0, 1e-3}),
          field<&tolerance::Manufacture::profile_batch>("profile_batch", "Profile size",
                                                        "Of the discs of one unit together, outward", Quantity::length,
                                                        {0, 1e-3}),
          field<&tolerance::Manufacture::profile_form>("profile_form", "Profile form", "Of each flank, outward",
                                                       Quantity::length, {0, 1e-3}),
          field<&tolerance::Manufacture::hole_position>("hole_position", "Place of an output hole",
                                                        "Of each, radial and tangential", Quantity::length, {0, 1e-3}),
          field<&tolerance::Manufacture::hole_radius_batch>("hole_radius_batch", "Hole radius, all", "",
                                                            Quantity::length, {0, 1e-3}),
          field<&tolerance::Manufacture::hole_radius>("hole_radius", "Hole radius, each", "", Quantity::length,
                                                      {0, 1e-3}),
          field<&tolerance::Manufacture::pin_position>("pin_position", "Place of an output pin",
                                                       "Of each, radial and tangential", Quantity::length, {0, 1e-3}),
          field<&tolerance::Manufacture::pin_radius_batch>("pin_radius_batch", "Output roller radius, all", "",
                                                           Quantity::length, {0, 1e-3}),
          field<&tolerance::Manufacture::pin_radius>("pin_radius", "Output roller radius, each", "", Quantity::length,
                                                     {0, 1e-3}),
      }};
  return type;
}

template <>
const RecordType& describe<range::Stage>() {
  static const RecordType type{
      "stage",
      "Stage",
      "One reduction stage of a frame",
      {
          field<&range::Stage::geometry>("geometry", "Geometry", ""),
          field<&range::Stage::ring_material>("ring_material", "Ring material",
                                              "Of the ring that holds the rollers; how it grows when it warms"),
          field<&range::Stage::ring_rollers>("ring_rollers", "Ring rollers", "How a ring roller is carried")
              .with_default(),
          field<&range::Stage::ring_pin_radius>("ring_pin_radius", "Ring pin radius",
                                                "Pin inside a turning ring roller", Quantity::length, {0, 0.2})
              .with_default(),
          field<&range::Stage::output_rollers>("output_rollers", "Output rollers", "How an output roller is carried")
              .with_default(),
          field<&range::Stage::output_pin_radius>("output_pin_radius", "Output pin radius", "Core of the output pin",
                                                  Quantity::length, {1e-4, 0.2}),
          field<&range::Stage::pin_lever_near>("pin_lever_near", "Pin lever, near disc",
                                               "Flange face to the middle of the near disc", Quantity::length, {0, 1}),
          field<&range::Stage::pin_lever_far>("pin_lever_far", "Pin lever, far disc",
                                              "Flange face to the middle of the far disc", Quantity::length, {0, 1}),
          field<&range::Stage::pins_guided>("pins_guided", "Pins guided",
                                            "A ring holds the far ends of the output pins")
              .with_default(),
          field<&range::Stage::eccentric_bearing>("eccentric_bearing", "Eccentric bearing",
                                                  "One per disc, rolling in its bore"),
          field<&range::Stage::input_bearing>("input_bearing", "Input bearing", "Two of them carry the input shaft"),
          field<&range::Stage::input_span>("input_span", "Input bearing span", "Between the middles of the two",
                                           Quantity::length, {1e-3, 5}),
          field<&range::Stage::input_shaft_diameter>("input_shaft_diameter", "Input shaft diameter", "",
                                                     Quantity::length, {1e-3, 1}),
          field<&range::Stage::input_inertia>("input_inertia", "Input inertia",
                                              "Input shaft, eccentrics and the discs going round on them",
                                              Quantity::inertia, {0, 100}),
          field<&range::Stage::max_input_speed>("max_input_speed", "Highest input speed", "", Quantity::angular_speed,
                                                {1, 1000}),
          field<&range::Stage::profile_roughness>("profile_roughness", "Roughness",
                                                  "Composite rms roughness of lobe and roller", Quantity::length,
                                                  {1e-8, 1e-5})
              .with_default(),
          field<&range::Stage::manufacture>("manufacture", "Manufacture", "How exactly its parts are made"),
          field<&range::Stage::mass>("mass", "Mass of the stage", "", Quantity::mass, {0, 1e5}).with_default(),
          field<&range::Stage::price>("price", "Price", "Of the unit with this stage, without motor", Quantity::money,
                                      {0, 1e9}),
      }};
  return type;
}

template <>
const RecordType& describe<range::OutputShaft>() {
  static const RecordType type{
      "output_shaft",
      "Output shaft",
      "Shaft end, key, bearings",
      {
          field<&range::OutputShaft::diameter>("diameter", "Shaft diameter", "Of the shaft end", Quantity::length,
                                               {1e-3, 1}),
          field<&range::OutputShaft::length>("length", "Shaft end length", "", Quantity::length, {1e-3, 2}),
          field<&range::OutputShaft::seat_diameter>("seat_diameter", "Bearing seat diameter",
                                                    "At the bearing next to the load", Quantity::length, {1e-3, 1}),
          field<&range::OutputShaft::shoulder_radius>("shoulder_radius", "Fillet radius", "At that seat",
                                                      Quantity::length, {0, 0.1}),
          field<&range::OutputShaft::key_width>("key_width", "Key width", "", Quantity::length, {0, 0.2}),
          field<&range::OutputShaft::key_height>("key_height", "Key height", "", Quantity::length, {0, 0.2}),
          field<&range::OutputShaft::key_shaft_depth>("key_shaft_depth", "Keyway depth in the shaft", "",
                                                      Quantity::length, {0, 0.2}),
          field<&range::OutputShaft::key_length>("key_length", "Key length", "Overall, round ends", Quantity::length,
                                                 {0, 1}),
          field<&range::OutputShaft::tensile_strength>("tensile_strength", "Tensile strength", "", Quantity::pressure,
                                                       {1e8, 3e9}),
          field<&range::OutputShaft::yield_strength>("yield_strength", "Yield strength", "", Quantity::pressure,
                                                     {1e8, 3e9}),
          field<&range::OutputShaft::bearing_inside>("bearing_inside", "Inside bearing", "Away from the load"),
          field<&range::OutputShaft::bearing_outside>("bearing_outside", "Outside bearing", "Next to the load"),
          field<&range::OutputShaft::span>("span", "Bearing span", "Between the points at which they carry",
                                           Quantity::length, {1e-3, 5}),
          field<&range::OutputShaft::arrangement>("arrangement", "Arrangement of the bearings",
                                                  "Of tapered rollers and angular balls"),
          field<&range::OutputShaft::overhang>("overhang", "Overhang", "Outside bearing to the shaft shoulder",
                                               Quantity::length, {0, 2}),
          field<&range::OutputShaft::seal_diameter>("seal_diameter", "Seal diameter", "", Quantity::length, {1e-3, 1}),
      }};
  return type;
}

template <>
const RecordType& describe<range::Housing>() {
  static const RecordType type{
      "housing",
      "Housing",
      "As a body that gives off heat",
      {
          field<&range::Housing::diameter>("diameter", "Diameter", "Of the equivalent cylinder", Quantity::length,
                                           {1e-2, 5}),
          field<&range::Housing::length>("length", "Length", "", Quantity::length, {1e-2, 5}),
          field<&range::Housing::area>("area", "Outer area", "Without fins", Quantity::area, {1e-3, 100}),
          field<&range::Housing::emissivity>("emissivity", "Emissivity", "0.9 painted", Quantity::number, {0, 1})
              .with_default(),
          field<&range::Housing::fin_factor>("fin_factor", "Fin factor", "On convection", Quantity::number, {1, 3})
              .with_default(),
          field<&range::Housing::oil_conductance>("oil_conductance", "Oil to housing", "",
                                                  Quantity::thermal_conductance, {0.1, 1e5}),
          field<&range::Housing::flange_conductance>("flange_conductance", "Housing to base", "",
                                                     Quantity::thermal_conductance, {0, 1e4}),
          field<&range::Housing::oil_volume>("oil_volume", "Lubricant volume", "", Quantity::volume, {0, 10}),
          field<&range::Housing::mass>("mass", "Mass", "Whole unit without motor", Quantity::mass, {0.1, 1e5}),
      }};
  return type;
}

template <>
const RecordType& describe<range::Dimensions>() {
  static const RecordType type{
      "dimensions",
      "Dimensions",
      "For the drawing and the fit",
      {
          field<&range::Dimensions::shaft_height>("shaft_height", "Shaft height", "Foot to shaft centre",
                                                  Quantity::length, {0, 5}),
          field<&range::Dimensions::foot_holes_across>("foot_holes_across", "Foot holes across", "", Quantity::length,
                                                       {0, 5}),
          field<&range::Dimensions::foot_holes_along>("foot_holes_along", "Foot holes along", "", Quantity::length,
                                                      {0, 5}),
          field<&range::Dimensions::foot_hole>("foot_hole", "Foot hole", "Diameter", Quantity::length, {0, 5}),
          field<&range::Dimensions::shoulder_to_hole>("shoulder_to_hole", "Shoulder to first hole", "",
                                                      Quantity::length, {0, 5}),
          field<&range::Dimensions::flange_bolt_circle>("flange_bolt_circle", "Flange bolt circle", "",
                                                        Quantity::length, {0, 5}),
          field<&range::Dimensions::flange_spigot>("flange_spigot", "Flange spigot", "", Quantity::length, {0, 5}),
          field<&range::Dimensions::flange_outside>("flange_outside", "Flange outside", "", Quantity::length, {0, 5}),
          field<&range::Dimensions::flange_holes>("flange_holes", "Flange holes", "", Quantity::number, {0, 48}),
          field<&range::Dimensions::flange_hole>("flange_hole", "Flange hole", "Diameter", Quantity::length, {0, 5}),
          field<&range::Dimensions::foot_bolt>("foot_bolt", "Foot bolt", "Thread of the bolts through the feet",
                                               Quantity::length, {5e-3, 48e-3}),
          field<&range::Dimensions::flange_bolt>("flange_bolt", "Flange bolt", "Thread of the bolts through the flange",
                                                 Quantity::length, {5e-3, 48e-3}),
          field<&range::Dimensions::bolt_class>("bolt_class", "Property class of the bolts", "ISO 898-1"),
          field<&range::Dimensions::length>("length", "Length", "Output shoulder to motor face", Quantity::length,
                                            {0, 5}),
          field<&range::Dimensions::width>("width", "Width", "", Quantity::length, {0, 5}),
          field<&range::Dimensions::height>("height", "Height", "", Quantity::length, {0, 5}),
      }};
  return type;
}

template <>
const RecordType& describe<range::Lubricant>() {
  static const RecordType type{
      "lubricant",
      "Lubricant",
      "",
      {
          field<&range::Lubricant::kind>("kind", "Kind", ""),
          field<&range::Lubricant::base>("base", "Base oil", "").with_default(),
          field<&range::Lubricant::viscosity_40>("viscosity_40", "Viscosity at 40 °C",
                                                 "Of the oil, or of the base oil of a grease",
                                                 Quantity::kinematic_viscosity, {1e-6, 1e-2}),
          field<&range::Lubricant::viscosity_index>("viscosity_index", "Viscosity index", "", Quantity::number,
                                                    {0, 400}),
          field<&range::Lubricant::food_grade>("food_grade", "Food grade", "Registered for incidental contact")
              .with_default(),
          field<&range::Lubricant::pour_point>(
              "pour_point", "Pour point",
              "Of an oil (ISO 3016); of a grease its lower temperature of use. Usual for kind and grade when left out",
              Quantity::temperature, {173.15, 303.15}),
      }};
  return type;
}

template <>
const RecordType& describe<range::Frame>() {
  static const RecordType type{
      "frame",
      "Frame",
      "One size",
      {
          field<&range::Frame::name>("name", "Name", ""),
          field<&range::Frame::stages>("stages", "Stages", "Every ratio this frame is made in"),
          field<&range::Frame::output>("output", "Output shaft", ""),
          field<&range::Frame::housing>("housing", "Housing", ""),
          field<&range::Frame::dimensions>("dimensions", "Dimensions", ""),
          field<&range::Frame::lubricants>("lubricants", "Lubricants", "Offered, the usual one first"),
          field<&range::Frame::foot>("foot", "Foot mounting", "").with_default(),
          field<&range::Frame::flange>("flange", "Flange mounting", "").with_default(),
          field<&range::Frame::vertical>("vertical", "Vertical", "May stand with the output shaft upright")
              .with_default(),
          field<&range::Frame::upright_lubrication>(
              "upright_lubrication", "Upper bearings upright",
              "How bearings above the oil level are lubricated when the shaft stands upright"),
          field<&range::Frame::input_seal_diameter>("input_seal_diameter", "Input seal diameter", "", Quantity::length,
                                                    {1e-3, 1}),
          field<&range::Frame::motor_frames>("motor_frames", "Motor frames", "IEC motor frames that fit"),
          field<&range::Frame::sound_level>("sound_level", "Sound level", "Measured A-weighted level at 1 m, dB",
                                            Quantity::number, {20, 130}),
      }};
  return type;
}

template <>
const RecordType& describe<range::TwoStage>() {
  static const RecordType type{
      "two_stage",
      "Two-stage unit",
      "A first stage of a smaller frame in front of a frame",
      {
          field<&range::TwoStage::frame>("frame", "Frame", "With the second stage and the output shaft"),
          field<&range::TwoStage::second_lobes>("second_lobes", "Lobes of the second stage", "", Quantity::number,
                                                {2, 200}),
          field<&range::TwoStage::first_frame>("first_frame", "First frame", ""),
          field<&range::TwoStage::first_lobes>("first_lobes", "Lobes of the first stage", "", Quantity::number,
                                               {2, 200}),
          field<&range::TwoStage::price>("price", "Price", "", Quantity::money, {0, 1e9}),
          field<&range::TwoStage::extra_length>("extra_length", "Extra length", "", Quantity::length, {0, 5}),
          field<&range::TwoStage::extra_mass>("extra_mass", "Extra mass", "", Quantity::mass, {0, 1e5}),
      }};
  return type;
}

template <>
const RecordType& describe<range::Range>() {
  static const RecordType type{"range",
                               "Range",
                               "Frames, stages and two-stage pairs of one maker",
                               {
                                   field<&range::Range::name>("name", "Name", ""),
                                   field<&range::Range::version>("version", "Version", ""),
                                   field<&range::Range::note>("note", "Note", "What it is"),
                                   field<&range::Range::currency>("currency", "Currency", "Word behind prices"),
                                   field<&range::Range::frames>("frames", "Frames", ""),
                                   field<&range::Range::two_stage>("two_stage", "Two-stage units", ""),
                               }};
  return type;
}

}  // namespace lobewise::model
