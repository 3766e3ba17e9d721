#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {
std::vector<Check> no_checks(const drive::Drive&, const Evaluation&) { return {}; }
}  // namespace

const std::vector<Question>& questions() {
  static const std::vector<Question> list{
      {"place", "May it stand there, and can it be put there?", no_checks, write_place, false, false},
      {"ratio", "Does the driven shaft turn at the speed asked for?", ratio_checks, write_ratio, true, false},
      {"sharing", "How many lobes carry the load, and how evenly?", sharing_checks, write_sharing},
      {"clearance", "Does it keep play between lobes and rollers, cold and warm?", clearance_checks, write_clearance},
      {"contact", "Are the lobes and rollers safe in contact at the working load?", contact_checks, write_contact},
      {"shock", "What happens in the worst moment: start, jam, reversal?", shock_checks, write_shock},
      {"life", "How long do eccentric bearing, rollers and shaft bearings last on this duty?", life_checks, write_life},
      {"overhung", "Can the shaft take the chain, belt or pinion?", overhung_checks, write_overhung},
      {"service", "Does it carry the service factor that is asked for?", no_checks, write_service, false},
      {"efficiency", "What share of the power arrives?", efficiency_checks, write_efficiency},
      {"heat", "How warm does it get, and does heat or strength limit it?", heat_checks, write_heat},
      {"lubrication", "Is the lubricant right, and for how long, in this orientation?", lubrication_checks,
       write_lubrication},
      {"motion", "How stiff is it, how much does it lose on reversal, what does it shake at?", motion_checks,
       write_motion},
      {"motor", "Does the motor start it and run it inside its own limits?", motor_checks, write_motor},
      {"fit", "Does it fit where the old one stood?", no_checks, write_fit, false, false},
      {"cost", "When does it pay back, and how sure is that?", no_checks, write_cost, false},
  };
  return list;
}

}  // namespace lobewise::evidence
