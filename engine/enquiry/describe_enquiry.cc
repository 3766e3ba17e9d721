#include "engine/enquiry/enquiry.h"

namespace lobewise::model {

template <>
const RecordType& describe<demand::DrivenMachine>();

template <>
const RecordType& describe<enquiry::Incumbent>();
template <>
const RecordType& describe<enquiry::Economics>();
template <>
const RecordType& describe<enquiry::Explosive>();

template <>
const std::vector<Choice>& choices_of<enquiry::Place>() {
  static const std::vector<Choice> words{
      {"indoors", "indoors"}, {"outdoors_shaded", "outdoors in the shade"}, {"outdoors_sun", "outdoors in the sun"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<demand::Link>() {
  static const std::vector<Choice> words{{"single_chain", "single chain"},
                                         {"double_chain", "double chain"},
                                         {"toothed_belt", "toothed belt"},
                                         {"pinion", "pinion"},
                                         {"v_belt", "V-belt"},
                                         {"flat_belt", "flat belt"},
                                         {"tensioned_flat_belt", "flat belt with tensioning pulley"},
                                         {"variable_belt", "variable-speed belt"},
                                         {"friction_wheel", "friction wheel"},
                                         {"rack_pinion", "pinion on a rack"},
                                         {"coupling", "coupling"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<enquiry::Starting>() {
  static const std::vector<Choice> words{{"direct", "direct on line"},
                                         {"star_delta", "star-delta"},
                                         {"soft_starter", "soft starter"},
                                         {"inverter", "inverter"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<enquiry::EfficiencyClass>() {
  static const std::vector<Choice> words{{"ie1", "IE1"}, {"ie2", "IE2"}, {"ie3", "IE3"}, {"ie4", "IE4"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<enquiry::Units>() {
  static const std::vector<Choice> words{{"si", "SI"}, {"us", "US"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<enquiry::MountingKind>() {
  static const std::vector<Choice> words{{"foot", "on feet"}, {"flange", "on a flange"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<enquiry::AxialDirection>() {
  static const std::vector<Choice> words{{"out_of_unit", "pulls the shaft out of the unit"},
                                         {"into_unit", "pushes the shaft into the unit"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<enquiry::Orientation>() {
  static const std::vector<Choice> words{
      {"horizontal", "horizontal"}, {"output_down", "output shaft down"}, {"output_up", "output shaft up"}};
  return words;
}

template <>
const RecordType& describe<enquiry::Site>() {
  static const RecordType type{
      "site",
      "Place",
      "Where it stands",
      {
          field<&enquiry::Site::ambient_low>("ambient_low", "Coldest surroundings", "", Quantity::temperature,
                                             {183.15, 333.15}),
          field<&enquiry::Site::ambient_high>("ambient_high", "Warmest surroundings", "", Quantity::temperature,
                                              {223.15, 343.15}),
          field<&enquiry::Site::altitude>("altitude", "Altitude", "Above sea level", Quantity::length, {-430, 6000}),
          field<&enquiry::Site::air_speed>("air_speed", "Air over the housing",
                                           "The motor fan gives about 1.5 m/s, still air 0.3 m/s", Quantity::speed,
                                           {0, 30}),
          field<&enquiry::Site::place>("place", "Place", "Indoors or outdoors"),
          field<&enquiry::Site::washed_down>("washed_down", "Washed down", "Water at the seals: shorter life"),
          field<&enquiry::Site::dusty>("dusty", "Dusty", "A layer on the housing keeps it warm, grit shortens life"),
          field<&enquiry::Site::food_area>("food_area", "Food area", "Only registered lubricants"),
          field<&enquiry::Site::explosive_atmosphere>("explosive_atmosphere", "Explosive atmosphere",
                                                      "Gas or dust that may explode around it"),
          field<&enquiry::Site::explosive>("explosive", "Explosive place",
                                           "Its zone, group, temperature class and who certifies"),
      }};
  return type;
}

template <>
const RecordType& describe<enquiry::Cycle>() {
  static const RecordType type{
      "cycle",
      "Cycle",
      "Intermittent duty: it runs, rests, and begins again",
      {
          field<&enquiry::Cycle::run_time>("run_time", "Running time", "", Quantity::time, {1, 86400}),
          field<&enquiry::Cycle::rest_time>("rest_time", "Rest", "", Quantity::time, {0, 86400}),
      }};
  return type;
}

template <>
const std::vector<Choice>& choices_of<enquiry::PullDirection>() {
  static const std::vector<Choice> words{
      {"along", "along the base"}, {"toward", "onto the base"}, {"away", "away from the base"}};
  return words;
}

template <>
const RecordType& describe<enquiry::Connection>() {
  using C = enquiry::Connection;
  static const RecordType type{
      "connection",
      "Connection",
      "What joins the output shaft to the driven shaft",
      {
          field<&C::link>("link", "Link", ""),
          field<&C::pitch_diameter>("pitch_diameter", "Pitch diameter", "Of the wheel on the output shaft",
                                    Quantity::length, {0.01, 5}),
          field<&C::ratio>("ratio", "Ratio of the link", "Driven wheel over this wheel", Quantity::number, {0.1, 20}),
          field<&C::efficiency>("efficiency", "Efficiency of the link", "", Quantity::share, {0.5, 1}),
          field<&C::position>("position", "Position", "Of the radial force, from the shaft shoulder", Quantity::length,
                              {0, 2}),
          field<&C::radial_force>("radial_force", "Radial force", "Stated; rules over what the link gives",
                                  Quantity::force, {0, 1e7}),
          field<&C::axial_force>("axial_force", "Axial force", "", Quantity::force, {0, 1e7}),
          field<&C::pull>("pull", "Direction of the pull", "Seen from the base of the reducer: decides for its bolts"),
          field<&C::largest_torque>("largest_torque", "Largest torque it bears",
                                    "Coupling, chain or belt on the output shaft, for a moment, by its own data",
                                    Quantity::torque, {1e-3, 1e8}),
          field<&C::stiffness>("stiffness", "Torsional stiffness",
                               "Of coupling, chain or belt, at the output shaft: decides what the drive swings at",
                               Quantity::torsional_stiffness, {1, 1e10}),
          field<&C::teeth>("teeth", "Teeth", "Of the wheel on the output shaft: chain, toothed belt or pinion",
                           Quantity::number, {6, 400}),
          field<&C::machine_pulses>("machine_pulses", "Pulses a turn",
                                    "Blades, lobes or buckets of the machine, per turn of its shaft", Quantity::number,
                                    {1, 400}),
          field<&C::axial_direction>("axial_direction", "Direction of the axial force",
                                     "Not said: the worse one counts"),
      }};
  return type;
}

template <>
const RecordType& describe<enquiry::Supply>() {
  static const RecordType type{
      "supply",
      "Supply and motor",
      "",
      {
          field<&enquiry::Supply::frequency>("frequency", "Mains frequency", "", Quantity::frequency, {40, 70}),
          field<&enquiry::Supply::voltage>("voltage", "Voltage", "", Quantity::voltage, {50, 15000}),
          field<&enquiry::Supply::starting>("starting", "Starting", ""),
          field<&enquiry::Supply::motor_power>("motor_power", "Motor power", "Nameplate, when the motor is given",
                                               Quantity::power, {40, 1e6}),
          field<&enquiry::Supply::motor_speed>("motor_speed", "Motor speed", "Nameplate", Quantity::angular_speed,
                                               {30, 400}),
          field<&enquiry::Supply::poles>("poles", "Poles", "2, 4, 6 or 8", Quantity::number, {2, 8}),
          field<&enquiry::Supply::efficiency_class>("efficiency_class", "Efficiency class", ""),
          field<&enquiry::Supply::inverter_low>("inverter_low", "Lowest inverter frequency", "", Quantity::frequency,
                                                {1, 200}),
          field<&enquiry::Supply::inverter_high>("inverter_high", "Highest inverter frequency", "", Quantity::frequency,
                                                 {1, 200}),
          field<&enquiry::Supply::coupling_stiffness>("coupling_stiffness", "Stiffness of the motor's coupling",
                                                      "Between motor and reducer, in torsion; rigid when left out",
                                                      Quantity::torsional_stiffness, {1, 1e9}),
      }};
  return type;
}

template <>
const RecordType& describe<enquiry::Mounting>() {
  static const RecordType type{
      "mounting",
      "Mounting",
      "",
      {
          field<&enquiry::Mounting::kind>("kind", "Kind", ""),
          field<&enquiry::Mounting::orientation>("orientation", "Orientation", "Of the output shaft"),
          field<&enquiry::Mounting::max_length>("max_length", "Room along the shaft", "", Quantity::length, {0.01, 20}),
          field<&enquiry::Mounting::max_width>("max_width", "Room across", "", Quantity::length, {0.01, 20}),
          field<&enquiry::Mounting::max_height>("max_height", "Room in height", "", Quantity::length, {0.01, 20}),
          field<&enquiry::Mounting::lifting>("lifting", "Lifting capacity", "Of the hoist above it", Quantity::mass,
                                             {1, 1e6}),
      }};
  return type;
}

template <>
const RecordType& describe<enquiry::Wishes>() {
  static const RecordType type{
      "wishes",
      "Wishes",
      "What is asked for",
      {
          field<&enquiry::Wishes::life>("life", "Service life", "", Quantity::duration, {3600, 3.6e9}),
          field<&enquiry::Wishes::reliability>("reliability", "Reliability", "Share of units that must reach it",
                                               Quantity::share, {0.5, 0.9995}),
          field<&enquiry::Wishes::speed_tolerance>("speed_tolerance", "Tolerance of the speed", "", Quantity::share,
                                                   {0.0001, 1}),
          field<&enquiry::Wishes::service_factor>("service_factor", "Service factor", "As the customer asks for it",
                                                  Quantity::number, {0.8, 5}),
          field<&enquiry::Wishes::unit_share>("unit_share", "Share of units",
                                              "Of all units made, those that must hold; each is made a little "
                                              "differently",
                                              Quantity::share, {0.5, 0.999}),
      }};
  return type;
}

template <>
const RecordType& describe<enquiry::BuildChoice>() {
  static const RecordType type{
      "build",
      "Build",
      "The build to prove; the best candidate when left out",
      {
          field<&enquiry::BuildChoice::frame>("frame", "Frame", ""),
          field<&enquiry::BuildChoice::lobes>("lobes", "Lobes", "Of the stage, or of the second of two",
                                              Quantity::number, {2, 200}),
          field<&enquiry::BuildChoice::first_frame>("first_frame", "First frame", "Of a two-stage unit"),
          field<&enquiry::BuildChoice::first_lobes>("first_lobes", "Lobes of the first stage", "", Quantity::number,
                                                    {2, 200}),
      }};
  return type;
}

namespace {

/// May be left out: the plates of the present drive then say what is asked at most.
Field machine_field() {
  Field machine = field<&enquiry::Enquiry::machine>(
                      "machine", "Driven machine",
                      "Where nobody can describe it, power, speed and ratio of the present drive serve in its place")
                      .with_default();
  machine.present = [](const void* enquiry) {
    return demand::described(static_cast<const enquiry::Enquiry*>(enquiry)->machine);
  };
  return machine;
}

}  // namespace

template <>
const RecordType& describe<enquiry::Enquiry>() {
  static const RecordType type{"enquiry",
                               "Enquiry",
                               "A driven machine and what is asked of its drive",
                               {
                                   field<&enquiry::Enquiry::title>("title", "Title", ""),
                                   field<&enquiry::Enquiry::customer>("customer", "Customer", ""),
                                   field<&enquiry::Enquiry::note>("note", "Note", ""),
                                   field<&enquiry::Enquiry::units>("units", "Units", "In which reports are written"),
                                   machine_field(),
                                   field<&enquiry::Enquiry::duty>("duty", "Duty", ""),
                                   field<&enquiry::Enquiry::cycle>("cycle", "Cycle", ""),
                                   field<&enquiry::Enquiry::site>("site", "Place", ""),
                                   field<&enquiry::Enquiry::connection>("connection", "Connection", ""),
                                   field<&enquiry::Enquiry::supply>("supply", "Supply and motor", ""),
                                   field<&enquiry::Enquiry::mounting>("mounting", "Mounting", ""),
                                   field<&enquiry::Enquiry::wishes>("wishes", "Wishes", ""),
                                   field<&enquiry::Enquiry::build>("build", "Build", ""),
                                   field<&enquiry::Enquiry::incumbent>("incumbent", "Drive in service", ""),
                                   field<&enquiry::Enquiry::economics>("economics", "Money", ""),
                               }};
  return type;
}

}  // namespace lobewise::model
