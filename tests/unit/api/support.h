#pragma once
#include "engine/api/registry.h"

namespace lobewise::api {

/// An enquiry that says no more than the machine.
inline Json conveyor() {
  return Json{{"machine",
               {{"belt_conveyor",
                 {{"mass_flow", "120 t/h"},
                  {"speed", "1.3 m/s"},
                  {"length", "46 m"},
                  {"lift", "14 m"},
                  {"drum_diameter", "500 mm"},
                  {"feed", "uneven"}}}}}};
}

}  // namespace lobewise::api
