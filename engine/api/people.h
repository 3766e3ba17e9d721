#pragma once
// Who rides, for the doors that are no enquiry: lists, names of logs.

#include "engine/demand/cautions.h"
#include "engine/demand/people.h"

namespace lobewise::api {

using demand::Aboard;
using demand::lifting_caution;
using demand::people_refused;
using demand::who_rides;
using demand::WhoRides;

}  // namespace lobewise::api
